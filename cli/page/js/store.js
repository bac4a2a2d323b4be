// The state as the program last told it, and every way to change it.

import { get, post } from "./api.js";
import { tell } from "./dom.js";

/**
 * `state` is the whole, `table` the table of keys, `preview` what is shown while pulling, or null; `over` the sizes
 * that are laid over the pieces, or null.
 */
export const store = { state: null, table: null, preview: null, problem: null, over: null };

const listeners = new Set();

/** Calls `heard("state" | "preview")` after each change. */
export function listen(heard) {
  listeners.add(heard);
  return () => listeners.delete(heard);
}

function say(what) {
  for (const heard of listeners) heard(what);
}

/** Takes in a whole state, unless a younger one is here. */
export function take(state) {
  if (store.state && state.version < store.state.version) return;
  store.state = state;
  store.preview = null;
  store.problem = null;
  say("state");
}

/** Tells what went wrong where it can be seen. */
export function trouble(error) {
  tell(error.message, true);
  if (error.name !== "Error") console.error(error);
}

/** Does something that may be refused, and tells if it is. */
export async function attempt(doing) {
  try {
    return await doing();
  } catch (error) {
    trouble(error);
    return undefined;
  }
}

/** Asks for a state and takes it in. */
export async function go(path, data) {
  return attempt(async () => {
    const answer = await post(path, data);
    take(answer.state ?? answer);
    return answer;
  });
}

/** The table of keys and the state, at the beginning. */
export async function begin() {
  [store.table, store.state] = await Promise.all([get("/api/keys"), get("/api/state")]);
  say("state");
  follow();
}

/** One or more keys set for good: one step of undo. */
export function set(changes, label) {
  return go("/api/set", { changes, keep: true, label });
}

// Only the latest preview matters: while one is on its way the next waits, and is replaced by a later one.
// Numbers rise with the clock, so that another tab of the same sheet does not stay behind this one.
let seq = 0;
let waiting = null;
let sending = null;

/** Shows what changes would do, without keeping them. */
export function preview(changes) {
  waiting = changes;
  sending ??= pump();
}

function next() {
  seq = Math.max(seq + 1, Date.now());
  return seq;
}

async function pump() {
  try {
    while (waiting) {
      const changes = waiting;
      waiting = null;
      const answer = await post("/api/set", { changes, keep: false, seq: next() });
      if (answer.dropped || halted) continue;
      store.preview = answer;
      say("preview");
    }
  } catch (error) {
    waiting = null;
    trouble(error);
  } finally {
    sending = null;
  }
}

let halted = false;

/** Ends the pulling: what was shown is kept, or everything is again as it was. */
export async function settle(changes, label) {
  waiting = null;
  halted = true;
  await sending;
  halted = false;
  if (changes) return set(changes, label);
  store.preview = null;
  say("state");
  return undefined;
}

/** Keeps in step with other tabs, and with the file. */
async function follow() {
  for (;;) {
    try {
      const { version } = await get(`/api/wait?after=${store.state.version}`);
      if (version > store.state.version) take(await get("/api/state"));
    } catch (error) {
      store.problem = error.message;
      say("state");
      if (error.status) return;
      await new Promise((resolve) => setTimeout(resolve, 2000));
    }
  }
}

/** Lays sizes over the pieces, `{ sizes, bounds, hidden, strong }`; takes them off again with null. */
export function layOver(over) {
  store.over = over;
  say("over");
}

/** What has to be filled in and is not yet, as rows of the table of keys. */
export function missing() {
  return store.table.keys.filter(({ key, needed }) => needed && store.state.keys[key]?.written === null && store.state.keys[key].source !== "given");
}

/** What is wrong in the sheet; what is only not yet filled in is no mistake. */
export function mistakes() {
  const keys = missing().map(({ key }) => key);
  return store.state.sheet.problems.filter(({ key }) => !keys.includes(key));
}

/** The garment to show: the preview's outlines while pulling, else the whole one. */
export function shown() {
  return store.preview?.garment ?? store.state.garment;
}

/** Is what is shown an older garment, as the sheet cannot be made now? */
export function isStale() {
  return store.preview ? store.preview.is_stale : store.state.is_stale;
}
