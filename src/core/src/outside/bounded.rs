//! Lists and maps from a file, bounded while they are read: one entry too many is refused before
//! it is kept, and a name that comes twice is refused instead of silently replacing the first.

use core::fmt;
use core::marker::PhantomData;
use std::collections::BTreeMap;

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};

/// A list of at most `MAX` entries.
pub(crate) struct List<T, const MAX: usize>(pub(crate) Vec<T>);

impl<T, const MAX: usize> Default for List<T, MAX> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<'de, T: Deserialize<'de>, const MAX: usize> Deserialize<'de> for List<T, MAX> {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct V<T, const MAX: usize>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>, const MAX: usize> Visitor<'de> for V<T, MAX> {
            type Value = List<T, MAX>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "a list of at most {MAX} entries")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Self::Value, A::Error> {
                let mut list = Vec::new();
                while let Some(entry) = seq.next_element()? {
                    if list.len() == MAX {
                        return Err(A::Error::custom(format_args!(
                            "more than {MAX} entries; leave some out"
                        )));
                    }
                    list.push(entry);
                }
                Ok(List(list))
            }
        }
        d.deserialize_seq(V(PhantomData))
    }
}

/// A map of at most `MAX` entries without a name that comes twice.
pub(crate) struct Map<K, T, const MAX: usize>(pub(crate) BTreeMap<K, T>);

impl<K, T, const MAX: usize> Default for Map<K, T, MAX> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<'de, K, T, const MAX: usize> Deserialize<'de> for Map<K, T, MAX>
where
    K: Deserialize<'de> + Ord,
    T: Deserialize<'de>,
{
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct V<K, T, const MAX: usize>(PhantomData<(K, T)>);
        impl<'de, K, T, const MAX: usize> Visitor<'de> for V<K, T, MAX>
        where
            K: Deserialize<'de> + Ord,
            T: Deserialize<'de>,
        {
            type Value = Map<K, T, MAX>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "a map of at most {MAX} entries")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut entries = BTreeMap::new();
                while let Some((name, entry)) = map.next_entry()? {
                    if entries.len() == MAX {
                        return Err(A::Error::custom(format_args!(
                            "more than {MAX} entries; leave some out"
                        )));
                    }
                    if entries.insert(name, entry).is_some() {
                        return Err(A::Error::custom("a name that comes twice; keep one"));
                    }
                }
                Ok(Map(entries))
            }
        }
        d.deserialize_map(V(PhantomData))
    }
}
