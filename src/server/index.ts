export { buildServer, type ServerOptions } from "./build-server.ts";
export { exampleTrials, loadExample } from "./example.ts";
export { type RunningServer, startServer, type StartOptions } from "./start-server.ts";
