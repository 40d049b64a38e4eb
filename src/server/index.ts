export { type Access, enterPath, loopbackOnly, newAccessWord } from "./access.ts";
export { PROGRAM_VERSION, serverInstance } from "./health-routes.ts";
export { buildServer } from "./build-server.ts";
export type { ServerOptions } from "./desk.ts";
export { exampleTrials, loadExample } from "./example.ts";
export { isLoopback, type RunningServer, startServer, type StartOptions } from "./start-server.ts";
