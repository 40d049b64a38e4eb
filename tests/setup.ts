import fc from "fast-check";

/** Property tests are the same on every run; PROPERTY_SEED=<n> looks elsewhere, as a person hunting for trouble would. */
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20261125) });
