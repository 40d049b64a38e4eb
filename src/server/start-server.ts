import { buildServer } from "./build-server.ts";
import type { ServerOptions } from "./desk.ts";

export interface StartOptions extends ServerOptions {
  /** 0 takes a free one */
  readonly port: number;
  /** the loopback address when left out */
  readonly host?: string;
}

export interface RunningServer {
  readonly url: string;
  close(): Promise<void>;
}

/** Listens on the loopback address. Throws when the port is taken. */
export async function startServer(options: StartOptions): Promise<RunningServer> {
  const app = await buildServer(options);
  const url = await app.listen({ port: options.port, host: options.host ?? "127.0.0.1" });
  return { url, close: () => app.close() };
}
