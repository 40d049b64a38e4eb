import { readFileSync, rmSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { invalid } from "#units";
import { writeWhole } from "./files.ts";
import { askServer, type Door } from "./server-api.ts";

/** What a server writes into its data folder while it runs. */
interface Note {
  readonly address: string;
  readonly pid: number;
  /** ISO 8601 */
  readonly started: string;
  /** of this run: a later server on the same port has another */
  readonly instance: string;
  /** what it asks of everybody; null where it serves this machine alone */
  readonly word: string | null;
}

const noteIn = (folder: string): string => join(folder, "server.json");

/** The address by which this machine reaches a server that listens on every one of its own. */
function ownAddress(url: string): string {
  return url.replace("//0.0.0.0", "//127.0.0.1").replace("//[::]", "//[::1]");
}

/** Leaves a note of a running server in its data folder; the note goes when the process ends. */
export async function leaveNote(folder: string, url: string, word: string | null): Promise<void> {
  const { serverInstance } = await import("#server");
  const note: Note = {
    address: ownAddress(url),
    pid: process.pid,
    started: new Date().toISOString(),
    instance: serverInstance(),
    word,
  };
  // The word is a key to everything here: nobody else on this machine reads it.
  await writeWhole(noteIn(folder), `${JSON.stringify(note, null, 2)}\n`, 0o600);
  process.once("exit", () => takeAway(folder, note.instance));
}

/** Takes away the own note only: a second server on the folder may have left another. */
function takeAway(folder: string, instance: string): void {
  try {
    if (readFileSync(noteIn(folder), "utf8").includes(instance)) rmSync(noteIn(folder));
  } catch {
    // Gone already, with its folder perhaps.
  }
}

/**
 * True for plain HTTP to this very machine. A folder may have come from somebody else with a note in it: records and word
 * go to no other machine on its say.
 */
export function isHere(address: string): boolean {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url?.protocol !== "http:") return false;
  const host = url.hostname.replace(/^\[|\]$/g, "");
  const own = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  return host === "localhost" || host === "::1" || /^127(\.\d+){3}$/.test(host) || own.some((a) => a.address === host);
}

async function noteOf(folder: string): Promise<Note | null> {
  const text = await readFile(noteIn(folder), "utf8").catch(() => null);
  if (text === null) return null;
  try {
    const { address, pid, started, instance, word } = JSON.parse(text) as Record<string, unknown>;
    if (typeof address !== "string" || typeof pid !== "number" || typeof instance !== "string") return null;
    return { address, pid, started: String(started), instance, word: typeof word === "string" ? word : null };
  } catch {
    // Half a note, or something else of this name.
    return null;
  }
}

function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // A process of another user is there too.
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/**
 * The server that runs on a data folder; null where none does, or none that can be spoken to. A note that a killed
 * server left behind is noticed by its process and by who answers. Throws InvalidInput where a server of another
 * version has the folder: opening it beside that one could change the layout under its feet.
 */
export async function serverOn(folder: string): Promise<Door | null> {
  const note = await noteOf(folder);
  if (note === null || !alive(note.pid) || !isHere(note.address)) return null;
  const door: Door = { address: note.address, word: note.word };
  const health = await askServer(door, "GET", "/health", { wait: 10_000 }).catch(() => null);
  const { name, instance, version, schemaVersion } = (health ?? {}) as Record<string, unknown>;
  if (name !== "scourlight" || instance !== note.instance) return null;
  const { PROGRAM_VERSION } = await import("#server");
  const own = (await import("#store")).schemaVersion;
  if (version !== PROGRAM_VERSION || schemaVersion !== own)
    invalid(
      "data",
      folder,
      "",
      `a server of version ${version} runs on it, and this is ${PROGRAM_VERSION}: end that one first`,
    );
  return door;
}
