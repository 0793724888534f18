//! A map in a file whose names may stand only once: JSON readers keep the last of two and say
//! nothing, and a rule that silently loses its first version is a trap.

use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};

/// Values by name; a name that comes twice is an error.
pub(super) struct Unique<T>(pub(super) BTreeMap<String, T>);

impl<T> Default for Unique<T> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Unique<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Names<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Names<T> {
            type Value = Unique<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("names with their values")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Self::Value, A::Error> {
                let mut map = BTreeMap::new();
                while let Some((name, value)) = access.next_entry::<String, T>()? {
                    if map.insert(name, value).is_some() {
                        return Err(A::Error::custom("a name stands twice; keep one of them"));
                    }
                }
                Ok(Unique(map))
            }
        }
        deserializer.deserialize_map(Names(PhantomData))
    }
}
