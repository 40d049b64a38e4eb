export { buildServer } from "./build-server.ts";
export type { ServerOptions } from "./desk.ts";
export { exampleTrials, loadExample } from "./example.ts";
export { type RunningServer, startServer, type StartOptions } from "./start-server.ts";
