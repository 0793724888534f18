// Keeps the site for a time without network, by way of the service worker, and tells of a newer version. The
// newer one takes over when that is asked for, and never while something is driven.

/** Tells the pages that something is otherwise than it was. */
const tell = () => window.dispatchEvent(new Event("coneyard-offline"));

/** Time from one look for a newer version to the next, milliseconds. */
const LOOK_AGAIN = 600_000;
/** Longest wait for a worker's answer, milliseconds; keeping what driving takes may take long. */
const PATIENCE = 300_000;

let registration = null;
let kept = false;
let newer = null;
let reload_when_taken = false;

/** Asks a worker; what it answers. */
function ask(worker, question) {
  return new Promise((done, fail) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event) => done(event.data);
    setTimeout(() => fail(new Error("no answer")), PATIENCE);
    worker.postMessage(question, [port2]);
  });
}

/** Looks whether the worker that waits is of another version than this page. */
async function look_at(worker, version) {
  if (!worker) return;
  if ((await ask(worker, "version")) === version) {
    // The page came from the network and is newer than the worker was: nobody needs to be asked, unless
    // another page is still of the older version.
    worker.postMessage("take over if alone");
    return;
  }
  newer = worker;
  tell();
}

/** Registers the worker, which keeps the pages; done when they are kept. */
export async function keep(version) {
  const workers = navigator.serviceWorker;
  if (!workers) throw new Error("this browser keeps no pages at this address");
  registration = await workers.register("service-worker.js", { updateViaCache: "none" });
  const look = () => look_at(registration.waiting, version).catch(() => {});
  registration.addEventListener("updatefound", () => {
    const worker = registration.installing;
    worker?.addEventListener("statechange", () => {
      // The very first one waits for nobody.
      if (worker.state === "installed" && registration.active) look();
    });
  });
  workers.addEventListener("controllerchange", () => {
    if (reload_when_taken) location.reload();
  });
  look();
  let looked = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.hidden || Date.now() - looked < LOOK_AGAIN) return;
    looked = Date.now();
    look_for_newer();
  });
  await workers.ready;
}

/** Looks whether the site has a newer version; trouble with that means that it cannot be asked now. */
export function look_for_newer() {
  registration?.update().catch(() => {});
}

/** Has what driving takes kept as well. */
export async function keep_drive() {
  const { active } = await navigator.serviceWorker.ready;
  kept = (await ask(active, "keep drive")) === true;
  tell();
}

/** Whether all that a drive takes is kept. */
export const is_kept = () => kept;

/** Whether a newer version is ready. */
export const is_newer = () => newer !== null;

/** Goes over to it: the page is loaded again. */
export function take_newer() {
  if (newer === null) return false;
  reload_when_taken = true;
  newer.postMessage("take over");
  return true;
}
