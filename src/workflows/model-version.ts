/** Version of the physics and its conventions. A change that moves a published number raises it. */
export const MODEL_VERSION = "scourlight-physics-3";
