//! The list of what is practised and evaluated on the real truck: a file of the site's own, by truck and site. The shipped
//! one is a beginning: levels/workplace/pallet-trucks.json, with its schema beside it.

use serde::{Deserialize, Serialize};

use crate::outside::bounded::List as Bounded;
use crate::outside::values::{SaidFile, Wrong, name, no_twins, said, wrong};
use crate::outside::{BadInput, Said, read_json};

/// Text of levels/workplace/pallet-trucks.json.
pub const SHIPPED: &str = include_str!("../../../../levels/workplace/pallet-trucks.json");

/// Version of the file format.
const FORMAT: u32 = 1;
/// Largest file that is read, bytes.
const MAX_BYTES: usize = 256 * 1024;
/// Most entries of a list.
pub const ITEMS_MOST: usize = 200;
/// Longest name of a site and longest citation, characters.
const LONGEST: usize = 200;

/// What an item is about: 29 CFR 1910.178(l)(3)(i) and (ii).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum About {
    /// The truck.
    Truck,
    /// The workplace.
    Site,
}

/// One thing that is to be seen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// Short name, once in its list.
    pub id: String,
    /// What it is about.
    pub about: About,
    /// What the person has to do, in a sentence.
    pub asks: Said,
    /// Nobody is evaluated as safe without it.
    pub must: bool,
    /// Where it stands; "common practice, no source" where nowhere.
    pub citation: String,
}

/// A list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct List {
    /// Short name; sheets keep it.
    pub id: String,
    /// What people call it.
    pub name: Said,
    /// For these trucks; for any where it names none.
    pub trucks: Vec<String>,
    /// For this site; for any when empty.
    pub site: String,
    /// What a result of the simulator is and what it is not: stands on every sheet.
    pub simulator: Said,
    /// What is to be seen, in order. Never empty.
    pub items: Vec<Item>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ListFile {
    #[serde(rename = "$schema", default)]
    _schema: Option<String>,
    format: u32,
    id: String,
    name: SaidFile,
    #[serde(default)]
    trucks: Bounded<String, 40>,
    #[serde(default)]
    site: String,
    simulator: SaidFile,
    items: Bounded<ItemFile, ITEMS_MOST>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ItemFile {
    id: String,
    about: About,
    asks: SaidFile,
    must: bool,
    citation: String,
}

impl List {
    /// Reads a list.
    ///
    /// # Errors
    /// One sentence with file and place.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let f: ListFile = read_json(file, text, MAX_BYTES)?;
        read(f).map_err(|w| BadInput::new(file, w.place, w.reason))
    }

    /// The shipped list.
    ///
    /// # Panics
    /// Never: a test reads the shipped file.
    #[allow(clippy::expect_used)]
    pub fn shipped() -> Self {
        Self::parse("pallet-trucks.json", SHIPPED.as_bytes()).expect("the shipped file is valid")
    }

    /// It is for this truck on this site.
    pub fn suits(&self, truck: &str, site: &str) -> bool {
        let of_truck = self.trucks.is_empty() || self.trucks.iter().any(|t| t == truck);
        of_truck && (self.site.is_empty() || self.site == site)
    }
}

fn line(at: &str, text: String) -> Result<String, Wrong> {
    if text.chars().count() <= LONGEST && !text.chars().any(char::is_control) {
        return Ok(text);
    }
    wrong(at, format!("use at most {LONGEST} characters on one line"))
}

fn read(f: ListFile) -> Result<List, Wrong> {
    if f.format != FORMAT {
        return wrong("format", format!("this is format {}; {FORMAT} is read here", f.format));
    }
    name("id", &f.id)?;
    for (i, truck) in f.trucks.0.iter().enumerate() {
        name(&format!("trucks[{i}]"), truck)?;
    }
    if f.items.0.is_empty() {
        return wrong("items", "name at least one thing that is to be seen");
    }
    no_twins("items", f.items.0.iter().map(|i| i.id.as_str()))?;
    let item = |(i, item): (usize, ItemFile)| {
        let at = format!("items[{i}]");
        name(&format!("{at}.id"), &item.id)?;
        Ok(Item {
            id: item.id,
            about: item.about,
            asks: said(&format!("{at}.asks"), item.asks)?,
            must: item.must,
            citation: line(&format!("{at}.citation"), item.citation)?,
        })
    };
    Ok(List {
        id: f.id,
        name: said("name", f.name)?,
        trucks: f.trucks.0,
        site: line("site", f.site)?,
        simulator: said("simulator", f.simulator)?,
        items: f.items.0.into_iter().enumerate().map(item).collect::<Result<_, _>>()?,
    })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;

    const SCHEMA: &str = include_str!("../../../../levels/workplace/workplace.schema.json");

    fn schema() -> jsonschema::Validator {
        jsonschema::validator_for(&serde_json::from_str(SCHEMA).unwrap()).unwrap()
    }

    fn shipped() -> Value {
        serde_json::from_str(SHIPPED).unwrap()
    }

    #[test]
    fn the_shipped_list_is_whole_in_both_languages() {
        let errors: Vec<String> = schema().iter_errors(&shipped()).map(|e| e.to_string()).collect();
        assert_eq!(errors, [""; 0]);
        let list = List::shipped();
        let both = |said: &Said| said.keys().map(String::as_str).eq(["en", "es"]);
        assert!(both(&list.name) && both(&list.simulator));
        assert!(list.items.iter().all(|i| both(&i.asks) && !i.citation.is_empty()));
        for about in [About::Truck, About::Site] {
            assert!(list.items.iter().filter(|i| i.about == about && i.must).count() > 5);
        }
        assert!(
            list.suits("single", "anywhere")
                && list.suits("double", "")
                && !list.suits("crane", "")
        );
    }

    /// Each is refused in one sentence with its place; the schema refuses all that a schema can.
    #[test]
    fn each_refusal_names_the_place() {
        let refused = |change: &dyn Fn(&mut Value)| {
            let mut list = shipped();
            change(&mut list);
            let said =
                List::parse("list.json", list.to_string().as_bytes()).unwrap_err().to_string();
            assert!(said.starts_with("list.json") && !said.contains('\n'), "{said}");
            (said, schema().is_valid(&list))
        };
        let with = |place: &str, change: &dyn Fn(&mut Value)| {
            let (said, valid) = refused(change);
            assert!(said.contains(place), "{place}: {said}");
            assert!(!valid, "the schema takes it: {said}");
        };
        with("format", &|l| l["format"] = json!(2));
        with("items", &|l| l["items"] = json!([]));
        with("id", &|l| l["id"] = json!("Pallet Trucks"));
        with("items[1].id", &|l| l["items"][1]["id"] = json!(""));
        with("items[0].asks", &|l| l["items"][0]["asks"] = json!({}));
        with("items[0].asks.en", &|l| l["items"][0]["asks"]["en"] = json!("a\nb"));
        with("items[0].about", &|l| l["items"][0]["about"] = json!("weather"));
        with("items[0].citation", &|l| l["items"][0]["citation"] = json!("x".repeat(201)));
        with("trucks[0]", &|l| l["trucks"][0] = json!("A b"));
        with("must", &|l| {
            l["items"][0].as_object_mut().unwrap().remove("must");
        });
        with("note", &|l| l["note"] = json!(1));
        let (said, _) = refused(&|l| l["items"][1]["id"] = l["items"][0]["id"].clone());
        assert!(said.contains("items[1].id"), "{said}");
        let many = json!(vec![shipped()["items"][0].clone(); ITEMS_MOST + 1]);
        with("items", &|l| l["items"] = many.clone());
    }
}
