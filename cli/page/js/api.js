// Asking the program. It answers on this machine only, and only to who has the token of the address.

const HEADER = "X-Quarterpin-Token";

function token() {
  const said = location.hash.slice(1);
  if (/^[0-9A-Za-z_-]{16,}$/.test(said)) {
    sessionStorage.setItem("token", said);
    history.replaceState(null, "", location.pathname);
  }
  return sessionStorage.getItem("token") ?? "";
}

const TOKEN = token();

/** What the program refused, in its own words. */
export class Refused extends Error {
  constructor(status, { text = "The program refused this.", next = "" } = {}) {
    super(next ? `${text}: ${next}` : text);
    this.status = status;
  }
}

/** The program does not answer any more. */
export class Gone extends Error {
  constructor() {
    super("The program has stopped. Start it again and open the address that it says; unsaved work is kept.");
  }
}

async function ask(path, options = {}) {
  let response;
  try {
    response = await fetch(path, { ...options, headers: { [HEADER]: TOKEN, ...options.headers } });
  } catch {
    throw new Gone();
  }
  if (response.ok) return response;
  if (response.status === 401)
    throw new Refused(401, { text: "This address is no longer valid", next: "open the one that the program says" });
  const answer = await response.json().catch(() => ({}));
  throw new Refused(response.status, answer.trouble);
}

/** What is at a path, as data. */
export async function get(path) {
  return (await ask(path)).json();
}

/** Sends data, and gives the answer. */
export async function post(path, data = {}) {
  const headers = { "Content-Type": "application/json" };
  return (await ask(path, { method: "POST", body: JSON.stringify(data), headers })).json();
}

/** A file. */
export async function file(path) {
  return (await ask(path)).blob();
}

/** Saves a blob under a name, as the browser saves files. */
export function saveAs(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

const pictures = new Map();

/** The address of a picture that never changes while the program runs; none where there is no such picture. */
export function picture(path) {
  if (!pictures.has(path))
    pictures.set(
      path,
      file(path).then(
        (blob) => URL.createObjectURL(blob),
        () => null,
      ),
    );
  return pictures.get(path);
}
