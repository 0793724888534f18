// What the pages need before and beside their own wasm: it starts the pages, loads the yard, the
// reader and texts when they are first wanted, and hands calls on. The files' hashed names stand in
// the page's meta tags, so that this file and the modules never need to know them.

const meta = (part) => document.querySelector(`meta[name="coneyard-${part}"]`);
const named = (part) => new URL(meta(part).content, document.baseURI).href;

let canvas = null;
let loading = null;

/** Loads the yard and mounts it on its canvas, once per page load; a failed try may be repeated. */
function load() {
  loading ??= (async () => {
    const module = await import(named("canvas"));
    await module.default();
    module.mount("#yard");
    canvas = module;
  })().catch((error) => {
    loading = null;
    throw error;
  });
  return loading;
}

const CANVAS_CALLS = [
  "drive",
  "drive_on",
  "act",
  "set_controls",
  "ticks",
  "set_paused",
  "set_pace",
  "status",
  "take_driven",
  "timing",
  "finish",
  "set_view",
  "set_sound",
  "open_replay",
  "replay_to",
  "replay_play",
  "open_companion",
  "close_companion",
  "judge",
  "told",
  "ride_again",
  "close",
];

const calls = Object.fromEntries(
  CANVAS_CALLS.map((name) => [
    name,
    (...given) => {
      if (canvas === null) throw new Error("The yard is not loaded.");
      return canvas[name](...given);
    },
  ]),
);

let reader = null;
let reader_loading = null;

/** Loads the reader of whole files, once per page load; a failed try may be repeated. */
function load_reader() {
  reader_loading ??= (async () => {
    const module = await import(named("reader"));
    await module.default();
    reader = module;
  })().catch((error) => {
    reader_loading = null;
    throw error;
  });
  return reader_loading;
}

/** Asks the reader, which must be loaded. */
function ask(question) {
  if (reader === null) throw new Error("The reader is not loaded.");
  return reader.ask(question);
}

/** Fetches a text of this site. */
async function fetch_text(path) {
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  return answer.text();
}

const texts = new Map();

/** Fetches the texts of a language, once per page load; a failed try may be repeated. */
function words(language) {
  if (!texts.has(language)) {
    const fetched = fetch_text(named(`words-${language}`));
    texts.set(language, fetched);
    fetched.catch(() => texts.delete(language));
  }
  return texts.get(language);
}

/** The language that the pages will most likely ask for; only a guess, which saves a round trip. */
function likely_language() {
  let set = null;
  try {
    set = JSON.parse(localStorage.getItem("coneyard-settings"))?.lang;
  } catch {
    // Nothing is kept, or it cannot be read: then it is the browser's language.
  }
  const code = String(set ?? navigator.language).split("-")[0].toLowerCase();
  return /^[a-z]+$/.test(code) && meta(`words-${code}`) ? code : "en";
}

/** Says on the bare page that the pages cannot be shown, and why. */
function trouble(why) {
  document.getElementById("trouble").hidden = false;
  document.getElementById("trouble-detail").textContent = String(why);
}

/** Whether the person has asked the browser to save data. */
function saves_data() {
  return navigator.connection?.saveData === true;
}

// A drive that is under way holds a lock of the browser, which it lets go of by itself when its tab
// closes: so a cut-off drive can be told from one that is being driven in another tab.
const holds = new Map();

/**
 * Takes the lock of this name until `let_go` or until the tab closes. False when another page has it,
 * in this tab or another; true also where the browser has no locks.
 */
function hold(name) {
  if (!navigator.locks) return Promise.resolve(true);
  if (holds.has(name)) return Promise.resolve(false);
  return new Promise((tell, fail) => {
    const keep = (lock) => {
      tell(lock !== null);
      return lock && new Promise((done) => holds.set(name, done));
    };
    navigator.locks.request(name, { ifAvailable: true }, keep).catch(fail);
  });
}

/** Gives the lock back. */
function let_go(name) {
  holds.get(name)?.();
  holds.delete(name);
}

/** Names of all locks held by any tab of this site; empty where the browser has no locks. */
async function held() {
  if (!navigator.locks) return [];
  return (await navigator.locks.query()).held.map((lock) => lock.name);
}

// A screen must not go dark under thumbs that lie still. The browser gives the lock up by itself when the
// page is hidden: then the drive is held still, and going on asks for it again.
let awake = null;

/** Keeps the screen from going dark, where the browser can, or lets it. */
function stay_awake(on) {
  awake?.then((lock) => lock?.release()).catch(() => {});
  awake = on && navigator.wakeLock ? navigator.wakeLock.request("screen").catch(() => null) : null;
}

/** What is printed on the keys, by their place on the keyboard, where the browser tells. */
async function key_names() {
  try {
    const names = [...(await navigator.keyboard.getLayoutMap())];
    return Object.fromEntries(names.map(([code, name]) => [code, name.toLocaleUpperCase()]));
  } catch {
    return {};
  }
}

globalThis.coneyard = {
  ...calls,
  load,
  load_reader,
  ask,
  words,
  fetch_text,
  trouble,
  saves_data,
  hold,
  let_go,
  held,
  stay_awake,
  key_names,
};

try {
  // The texts travel beside the module that will want them; the pages say what becomes of it.
  words(likely_language()).catch(() => {});
  const pages = await import(named("shell"));
  await pages.default();
} catch (error) {
  trouble(error);
  throw error;
}
