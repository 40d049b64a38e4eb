import { buildServer } from "./build-server.ts";
import type { ServerOptions } from "./desk.ts";

export interface StartOptions extends ServerOptions {
  /** 0 takes a free one */
  readonly port: number;
  /** the loopback address when left out; beyond it `access` has to say who may come in */
  readonly host?: string;
}

export interface RunningServer {
  readonly url: string;
  close(): Promise<void>;
}

const loopback = /^(localhost|127(\.\d{1,3}){3}|::1)$/;

/** True for an address that only this machine reaches. */
export const isLoopback = (host: string): boolean => loopback.test(host);

/** Listens on the loopback address, or beyond it with an access word. Throws when the port is taken. */
export async function startServer(options: StartOptions): Promise<RunningServer> {
  const host = options.host ?? "127.0.0.1";
  // Whatever a caller forgot: the network never gets in without a word.
  if (!isLoopback(host) && (options.access?.word ?? null) === null)
    throw new Error("a server beyond the loopback address needs an access word");
  const app = await buildServer(options);
  const url = await app.listen({ port: options.port, host });
  return { url, close: () => app.close() };
}
