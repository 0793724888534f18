// What the pages need before and beside their own wasm: it starts the pages, loads the yard, the
// reader, the exercises and texts when they are first wanted, and hands calls on. The files' hashed names
// stand in the page's meta tags, so that this file and the modules never need to know them.

const meta = (part) => document.querySelector(`meta[name="coneyard-${part}"]`);
const named = (part) => new URL(meta(part).content, document.baseURI).href;

/** Fetches a file of this site. */
async function fetched(part) {
  const answer = await fetch(named(part));
  if (answer.ok) return answer;
  throw new Error(`${meta(part).content}: ${answer.status}`);
}

/**
 * Fetches a module, and tells how much of it has come: bytes as they are when unpacked, since a browser
 * tells no others. The answer itself goes to the compiler, which so finds what it kept of an earlier time.
 */
async function module_of(part, tell) {
  const answer = await fetched(part);
  const all = Number(meta(part).dataset.bytes);
  const count = async (stream) => {
    let got = 0;
    for (const reader = stream.getReader(); ; ) {
      const { done, value } = await reader.read();
      tell(done ? all : Math.min((got += value.length), all), all);
      if (done) return;
    }
  };
  // Whoever compiles it is told of trouble on the way.
  if (answer.body) count(answer.clone().body).catch(() => {});
  return answer;
}

let canvas = null;
let loading = null;
const arrival = { got: 0, all: 0 };
const note = (got, all) => Object.assign(arrival, { got, all });

/** Loads the yard and mounts it on its canvas, once per page load; a failed try may be repeated. */
function load() {
  loading ??= (async () => {
    note(0, Number(meta("canvas-module").dataset.bytes));
    const code = module_of("canvas-module", note);
    // Both are on their way at once; it is waited for below.
    code.catch(() => {});
    const module = await module_named("canvas");
    await module.default({ module_or_path: await code });
    module.mount("#yard");
    canvas = module;
    keep_drive();
  })().catch((error) => {
    loading = null;
    note(0, 0);
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
  "drawn",
  "place_in_picture",
  "judge_by",
  "judge_on",
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

/** How often a module did not come, by its name. */
const missed = {};

/**
 * A module of code. A browser may remember for good that an address did not come, so a later try goes to another one.
 */
async function module_named(name) {
  const again = missed[name] ? `?again=${missed[name]}` : "";
  try {
    return await import(named(name) + again);
  } catch (error) {
    missed[name] = (missed[name] ?? 0) + 1;
    throw error;
  }
}

/** Loads the reader of whole files, once per page load; a failed try may be repeated. */
function load_reader() {
  reader_loading ??= (async () => {
    const module = await module_named("reader");
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

const texts = new Map();

/** Fetches a text of this site, once per page load; a failed try may be repeated. */
function text_of(part) {
  if (!texts.has(part)) {
    const text = fetched(part).then((answer) => answer.text());
    texts.set(part, text);
    text.catch(() => texts.delete(part));
  }
  return texts.get(part);
}

/** The texts of a language. */
const words = (language) => text_of(`words-${language}`);

/** All exercises. */
const exercises = () => text_of("exercises");

/** The lesson, with all that is shown in it. */
const lesson = () => text_of("lesson");

/** The drawings of the walk-round. */
const drawings = () => text_of("drawings");

/**
 * Asks the class's host. A site of plain files answers with something that is no JSON: then there is no
 * text. Where there is no network it throws.
 */
async function call_host(method, path, body) {
  const answer = await fetch(new URL(`api/${path}`, document.baseURI), {
    method,
    body,
    headers: body === undefined ? {} : { "content-type": "application/json" },
    cache: "no-store",
  });
  const is_json = answer.headers.get("content-type")?.startsWith("application/json") ?? false;
  return JSON.stringify({ status: answer.status, text: is_json ? await answer.text() : null });
}

/** Hears the host's news of these kinds, until what is given back is called. */
function hear_host(path, kinds, heard) {
  const news = new EventSource(new URL(`api/${path}`, document.baseURI));
  for (const kind of kinds) news.addEventListener(kind, (event) => heard(kind, event.data));
  return () => news.close();
}

let paper = null;

/** Sets the rule of a style sheet by which pages are printed; an empty one takes it away. */
function print_by(rule) {
  paper ??= new CSSStyleSheet();
  paper.replaceSync(rule);
  const others = document.adoptedStyleSheets.filter((sheet) => sheet !== paper);
  document.adoptedStyleSheets = [...others, paper];
}

/** Changes what stands behind the `#` of the address, and nothing else: no page hears of it. */
function show_address(hash) {
  history.replaceState(history.state, "", hash);
}

/** Puts a text where it can be pasted from; false where the browser does not let a page do so. */
async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
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

// Working without network is another file's, which comes when nothing else is waited for.
let offline = null;
/** So long after the pages are there, milliseconds. */
const KEEP_AFTER = 2000;

/** Keeps the pages for a time without network; without a place for them all works while there is one. */
async function keep_for_later() {
  await new Promise((done) => setTimeout(done, KEEP_AFTER));
  await loading?.catch(() => {});
  offline = await import(named("offline"));
  await offline.keep(meta("version").content);
  keep_drive();
}

/** Keeps what driving takes, once it is here and the pages are kept. */
function keep_drive() {
  if (canvas !== null) offline?.keep_drive().catch(() => {});
}

const { likely_language, trouble, started, tell } = globalThis.coneyard;

Object.assign(globalThis.coneyard, {
  ...calls,
  load,
  load_reader,
  ask,
  words,
  exercises,
  lesson,
  drawings,
  call_host,
  hear_host,
  arrived: () => arrival.got,
  arriving: () => arrival.all,
  print_by,
  show_address,
  copy,
  saves_data,
  hold,
  let_go,
  held,
  stay_awake,
  key_names,
  started: () => {
    started();
    keep_for_later().catch(() => {});
  },
  is_kept: () => offline?.is_kept() ?? false,
  is_newer: () => offline?.is_newer() ?? false,
  take_newer: async () => (await held()).length === 0 && offline.take_newer(),
});

try {
  // The texts travel beside the module that will want them; the pages say what becomes of it.
  words(likely_language()).catch(() => {});
  const code = module_of("shell-module", (got, all) => {
    tell(got, all);
    // The exercises follow the pages: nothing is seen the sooner for them.
    if (got === all) exercises().catch(() => {});
  });
  code.catch(() => {});
  const pages = await import(named("shell"));
  await pages.default({ module_or_path: await code });
} catch (error) {
  trouble(error);
  throw error;
}
