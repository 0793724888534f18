// Answers for the site when there is no network. The lists are filled in when the site is built: a worker
// belongs to one version, keeps exactly its files, and another version is another worker.

const VERSION = "{{version}}";
/** All but what only driving takes; the page itself is "./". */
const PAGES = "{{pages}}";
/** What driving takes besides: most of the bytes, so it is kept once it is wanted. */
const DRIVE = "{{drive}}";

const NAME = "coneyard-";
const CACHE = NAME + VERSION;
const PAGE = "./";
/** The network has so long to bring the page before the kept one is shown, milliseconds. */
const PATIENCE = 3000;

const address = (file) => new URL(file, registration.scope).href;
const known = new Set([...PAGES, ...DRIVE].map(address));
const page = address(PAGE);

/** Whether this name carries a digest of what is in the file. */
const is_lasting = (file) => /-[0-9a-f]{12}\.[a-z0-9]+$/.test(file);

/** A file that is kept, by any version if its name says what is in it. Nothing where nothing can be kept. */
async function kept(file) {
  try {
    const of_this = await (await caches.open(CACHE)).match(file);
    return of_this ?? (is_lasting(file) ? await caches.match(file) : undefined);
  } catch {
    return undefined;
  }
}

/** Fetches for keeping. A page of another version than these files would not fit them. */
async function fetched(file) {
  const answer = await fetch(file, { cache: is_lasting(file) ? "default" : "no-cache" });
  if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
  if (file === page && !(await answer.clone().text()).includes(VERSION)) {
    throw new Error("the site is changing at this moment");
  }
  return answer;
}

/** Keeps all of these files, or throws. */
async function keep(files) {
  const cache = await caches.open(CACHE);
  const one = async (file) => {
    if (await cache.match(file)) return;
    const older = is_lasting(file) ? await caches.match(file) : undefined;
    await cache.put(file, older ?? (await fetched(file)));
  };
  await Promise.all(files.map(address).map(one));
}

/** Whether an older version had kept what driving takes. */
async function drove_before() {
  const of = async (name) => (await (await caches.open(name)).keys()).some((r) => r.url.endsWith(".wasm") && r.url.includes("/canvas_bg-"));
  const names = (await caches.keys()).filter((name) => name.startsWith(NAME) && name !== CACHE);
  return (await Promise.all(names.map(of))).includes(true);
}

async function install() {
  try {
    await keep(PAGES);
    // Whoever could drive without network can do so after a new version too.
    if (await drove_before()) await keep(DRIVE);
  } catch (error) {
    // Half a version helps nobody: the older one stays, if there is one.
    await caches.delete(CACHE).catch(() => {});
    throw error;
  }
}

async function activate() {
  const names = await caches.keys();
  const others = names.filter((name) => name.startsWith(NAME) && name !== CACHE);
  await Promise.all(others.map((name) => caches.delete(name)));
  await clients.claim();
}

/** The page: from the network as long as it answers in time, so that a new version is seen at once. */
async function answer_page(request) {
  const asked = fetch(request).then((answer) => {
    if (answer.status >= 500) throw new Error(`${answer.status}`);
    return answer;
  });
  const late = async () => {
    await new Promise((done) => setTimeout(done, PATIENCE));
    return (await kept(page)) ?? asked;
  };
  try {
    return await Promise.race([asked, late()]);
  } catch {
    return (await kept(page)) ?? Response.error();
  }
}

/** A file of this version: as it is kept, else from the network, and kept then. */
async function answer_file(event) {
  const file = event.request.url;
  const here = await kept(file);
  if (here) return here;
  const answer = await fetch(event.request);
  if (answer.ok && known.has(file)) {
    const copy = answer.clone();
    // Where there is no room for it, it is fetched again the next time.
    event.waitUntil(caches.open(CACHE).then((cache) => cache.put(file, copy)).catch(() => {}));
  }
  return answer;
}

async function take_over_if_alone() {
  const pages = await clients.matchAll({ type: "window", includeUncontrolled: true });
  if (pages.length <= 1) await skipWaiting();
}

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  if (method !== "GET") return;
  const plain = url.split(/[?#]/)[0];
  if (mode === "navigate") {
    if (plain === page || plain === `${page}index.html`) event.respondWith(answer_page(event.request));
  } else if (known.has(url) || (url.startsWith(page) && is_lasting(url))) {
    event.respondWith(answer_file(event));
  }
});
addEventListener("message", (event) => {
  const [port] = event.ports;
  const work = {
    version: async () => VERSION,
    "keep drive": () => keep(DRIVE).then(() => true, () => false),
    "take over": () => skipWaiting(),
    "take over if alone": take_over_if_alone,
  }[event.data];
  if (work) event.waitUntil(work().then((answer) => port?.postMessage(answer)));
});
