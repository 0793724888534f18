//! The browser's database from outside: all of it as JSON, and a fresh browser filled from such
//! JSON before the site is opened, so that records of an older version can be kept as test data.

use serde_json::Value;

use super::Yard;

/// Reads every store: its records as pairs of key and value. A list of controls, which is no text,
/// is marked as such.
const DUMP: &str = "
    const asked = (request) => new Promise((ok, bad) => {
        request.onsuccess = () => ok(request.result);
        request.onerror = () => bad(request.error);
    });
    const database = await asked(indexedDB.open('coneyard'));
    const stores = {};
    for (const name of database.objectStoreNames) {
        const store = database.transaction(name).objectStore(name);
        const [keys, values] = await Promise.all(
            [asked(store.getAllKeys()), asked(store.getAll())]);
        stores[name] = values.map((value, i) => [keys[i],
            value instanceof Uint32Array ? { uint32: [...value] } : value]);
    }
    const { name, version } = database;
    database.close();
    return { name, version, stores };";

/// Makes the database anew from what `DUMP` gave.
const FILL: &str = "
    const { name, version, stores } = args[0];
    const done = (target, event) => new Promise((ok, bad) => {
        target[event] = ok;
        target.onerror = () => bad(target.error);
        target.onblocked = () => bad('another page has the database open');
    });
    await done(indexedDB.deleteDatabase(name), 'onsuccess');
    const opening = indexedDB.open(name, version);
    opening.onupgradeneeded = () => {
        for (const store in stores) opening.result.createObjectStore(store);
    };
    await done(opening, 'onsuccess');
    const writing = opening.result.transaction(Object.keys(stores), 'readwrite');
    for (const store in stores) {
        for (const [key, value] of stores[store]) {
            const is_list = value?.uint32 !== undefined;
            writing.objectStore(store).put(is_list ? Uint32Array.from(value.uint32) : value, key);
        }
    }
    await done(writing, 'oncomplete');
    opening.result.close();";

/// The whole database, from any page of the site.
pub async fn dump(yard: &Yard) -> Value {
    yard.script(DUMP, Vec::new()).await.expect("the database can be read")
}

/// Fills the database of a browser in which no page of the site is open.
pub async fn fill(yard: &Yard, database: &Value) {
    yard.open_bare().await;
    yard.script(FILL, vec![database.clone()]).await.expect("the database can be written");
}

/// The records of a store: keys and values.
pub fn records<'a>(database: &'a Value, store: &str) -> Vec<(&'a str, &'a Value)> {
    let list = database["stores"][store].as_array().map(Vec::as_slice).unwrap_or_default();
    list.iter().map(|pair| (pair[0].as_str().unwrap_or_default(), &pair[1])).collect()
}
