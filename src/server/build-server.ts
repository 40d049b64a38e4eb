import fastifyHelmet from "@fastify/helmet";
import fastifyRateLimit from "@fastify/rate-limit";
import fastifySwagger from "@fastify/swagger";
import Fastify, { type FastifyInstance, type FastifyReply } from "fastify";
import { guardAccess, listenerOptions, loopbackOnly } from "./access.ts";
import { answerRoutes } from "./answer-routes.ts";
import { archiveRoutes } from "./archive-routes.ts";
import { serializerCompiler, validatorCompiler } from "./description/documented.ts";
import { describer } from "./description/transform.ts";
import { docsRoutes } from "./docs-routes.ts";
import { answerBroken } from "./broken-requests.ts";
import type { Desk, ServerOptions } from "./desk.ts";
import { enquiryRoutes } from "./enquiry-routes.ts";
import { refusalOf, refuseErrors } from "./errors.ts";
import { readJsonBodies } from "./json-body.ts";
import { libraryRoutes } from "./library-routes.ts";
import { healthRoutes, PROGRAM_VERSION } from "./health-routes.ts";
import { frameRoutes } from "./frame-routes.ts";
import { gradingRoutes } from "./grading-routes.ts";
import { serverLimits } from "./limits.ts";
import { guardOrigins } from "./origins.ts";
import { servePages } from "./pages.ts";
import { paperRoutes } from "./paper-routes.ts";
import { photoRoutes } from "./photo-routes.ts";
import { PhotoThread } from "./photo-thread.ts";
import { runLogRoutes } from "./run-log-routes.ts";
import { sampleRoutes } from "./sample-routes.ts";
import { shopRoutes } from "./shop-routes.ts";
import { transferRoutes } from "./transfer-routes.ts";
import { trialRoutes } from "./trial-routes.ts";
import { takeTurns } from "./turns.ts";

/** The API and the pages of one store. Bound to nothing yet: `startServer` listens, tests inject. */
export async function buildServer(options: ServerOptions): Promise<FastifyInstance> {
  const limits = { ...serverLimits, ...options.limits };
  const app = Fastify({
    bodyLimit: limits.jsonBytes,
    // Whoever sends a request in drops holds a connection no longer than this.
    requestTimeout: limits.requestTime,
    keepAliveTimeout: limits.idleTime,
    clientErrorHandler: answerBroken,
    // A request without a host is refused with the other strangers, in the same words.
    ...listenerOptions(
      { connectionsCheckingInterval: Math.min(5000, limits.headTime), requireHostHeader: false },
      options.access,
    ),
    trustProxy: false,
    logger: false,
    // Whoever ends the server means it: pages keep their connections open for as long as they live.
    forceCloseConnections: true,
    // An address that cannot be read never reaches a route, and so not the error handler either.
    frameworkErrors: (error, _request, reply) => {
      const [status, line] = refusalOf(error);
      void (reply as FastifyReply).status(status).send({ error: line });
    },
    routerOptions: { maxParamLength: 200 },
  });
  app.server.headersTimeout = limits.headTime;
  app.server.maxConnections = limits.connections;
  const desk: Desk = { ...options, draws: options.draws ?? 64 };
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  await app.register(fastifySwagger, {
    openapi: { openapi: "3.1.0", info: { title: "Scourlight on this machine", version: PROGRAM_VERSION } },
    ...describer(),
  });
  await app.register(fastifyHelmet, {
    enableCSPNonces: true,
    contentSecurityPolicy: {
      directives: {
        defaultSrc: ["'self'"],
        // The inner loops of the physics are WebAssembly that comes with the page's own script.
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        styleSrc: ["'self'"],
        // Attribute styles are set by the widgets while they are used; style elements need the word of this page.
        styleSrcAttr: ["'unsafe-inline'"],
        // Photographs are shown from the page's own memory before they are kept.
        imgSrc: ["'self'", "data:", "blob:"],
        workerSrc: ["'self'"],
        objectSrc: ["'none'"],
        frameAncestors: ["'self'"],
        upgradeInsecureRequests: null,
      },
    },
    strictTransportSecurity: false,
    // Means nothing on one machine, and browsers warn of it when another page was open there before.
    originAgentCluster: false,
  });
  await app.register(fastifyRateLimit, { max: limits.requestsPerMinute, timeWindow: "1 minute" });
  app.removeContentTypeParser("text/plain");
  readJsonBodies(app, limits.jsonDepth);
  // Text bodies are CSV; nothing else is read as text.
  app.addContentTypeParser("text/csv", { parseAs: "string", bodyLimit: limits.csvBytes }, (_request, body, done) =>
    done(null, body),
  );
  refuseErrors(app);
  guardOrigins(app, options.access);
  guardAccess(app, options.access ?? loopbackOnly);
  // Setting a paper takes a thread and its fonts for a second or so.
  const papers = takeTurns(2, 20, "papers are being set already: wait for them");
  const photographs = new PhotoThread(desk.store);
  app.addHook("onClose", async () => photographs.close());
  await app.register(
    async (api) => {
      enquiryRoutes(api, desk);
      trialRoutes(api, desk);
      frameRoutes(api, desk);
      gradingRoutes(api, desk, photographs);
      await photoRoutes(api, desk, photographs);
      sampleRoutes(api, desk);
      runLogRoutes(api, desk);
      answerRoutes(api, desk, papers);
      paperRoutes(api, desk, papers);
      shopRoutes(api, desk);
      await transferRoutes(api, desk);
      libraryRoutes(api, desk);
      archiveRoutes(api, desk);
      healthRoutes(api);
      docsRoutes(app, api);
      api.get("/openapi.json", { schema: { hide: true } as object }, () => app.swagger());
    },
    { prefix: "/api" },
  );
  await servePages(app, options.webRoot);
  return app;
}
