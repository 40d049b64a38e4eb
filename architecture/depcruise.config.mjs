import { rooms, roomNames } from "./rooms.mjs";

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    {
      name: "no-circular",
      comment: "A cycle means that two files are one idea.",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    ...rooms.map((room) => {
      const closed = roomNames.filter((n) => n !== room.name && !room.may.includes(n));
      return {
        name: `walls-of-${room.name}`,
        comment: `${room.name} (${room.line}) may import only: ${room.may.join(", ") || "nothing of ours"}.`,
        severity: "error",
        from: { path: `^src/${room.name}/` },
        to: { path: `^src/(${closed.join("|")})/` },
      };
    }),
    ...rooms.map((room) => ({
      name: `door-of-${room.name}`,
      comment: `From outside, ${room.name} is entered by its index only.`,
      severity: "error",
      from: { path: "^src/", pathNot: `^src/${room.name}/` },
      to: { path: `^src/${room.name}/`, pathNot: `^src/${room.name}/index\\.tsx?$` },
    })),
    {
      name: "pure-rooms-touch-nothing",
      comment: "Core rooms have no file, clock, network or process: effects are arguments.",
      severity: "error",
      from: {
        path: `^src/(${rooms
          .filter((r) => r.env === "core")
          .map((r) => r.name)
          .join("|")})/`,
      },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "truth-is-apart",
      comment: "No product room may see the synthetic truths.",
      severity: "error",
      from: { path: "^src/(?!truth/)" },
      to: { path: "^src/truth/" },
    },
    {
      name: "referee-is-apart",
      comment: "No product room may lean on the slow referee.",
      severity: "error",
      from: { path: "^src/(?!referee/)" },
      to: { path: "^src/referee/" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "\\.(css|svg|ttf|typ)$" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "default", "types"],
    },
  },
};
