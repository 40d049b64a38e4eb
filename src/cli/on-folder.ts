import { serverOn } from "./running-server.ts";
import type { Door } from "./server-api.ts";

/** Says on the error stream who does the work, so that what is printed stays the same. */
function sayServer({ address }: Door): void {
  process.stderr.write(`by the server at ${address}, which runs on this data folder\n`);
}

/** Works on a data folder through the server that runs on it, else here, by opening its store. */
export async function onFolder<T>(
  folder: string,
  ways: { server(door: Door): Promise<T>; here(): Promise<T> },
): Promise<T> {
  const door = await serverOn(folder);
  if (door === null) return ways.here();
  sayServer(door);
  return ways.server(door);
}
