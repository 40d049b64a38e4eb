import { z } from "zod";

/** Ids as they stand in an address. */
export const idParams = z.object({ id: z.string().min(1).max(120) });
export const versionParams = idParams.extend({ version: z.coerce.number().int().min(1).max(1e9) });
export const couponParams = idParams.extend({ coupon: z.coerce.number().int().min(1).max(10_000) });
