import type { FastifyInstance } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import { z } from "zod";
import {
  historySchema,
  parseShop,
  refusalSchema,
  type ShopFile,
  shopPutSchema,
  shopSchema,
  shopVersionSchema,
  validate,
} from "#contract";
import { requireCurrency } from "#cost";
import type { Saved, StoreReader } from "#store";
import type { ShopRecord } from "#contract";
import { documented } from "./description/documented.ts";
import type { Desk } from "./desk.ts";
import { NotFound } from "./errors.ts";
import { idParams, versionParams } from "./ids.ts";

/** Figures of an enquiry for which nobody entered any: every one of them is an invented example. */
const none = { version: 0, savedAt: null, shop: {} } as const;

const shown = (saved: Saved<ShopRecord>) => ({
  version: saved.version,
  savedAt: saved.savedAt,
  shop: saved.record.shop,
});

/** What does not fit is refused before it is kept: ranges that do not hold their figure, a currency that is none. */
function checkedShop(value: unknown): ShopFile {
  const file = validate(shopSchema, value, "shop");
  requireCurrency(parseShop(file).inputs.currency);
  return file;
}

async function requireEnquiry(reader: StoreReader, id: string): Promise<void> {
  if ((await reader.latest("enquiry", id)) === null) throw new NotFound(`there is no enquiry ${id.slice(0, 80)}`);
}

/** The shop's own times and money that an enquiry is reckoned with, in versions. */
export function shopRoutes(api: FastifyInstance, { store }: Desk): void {
  const typed = api.withTypeProvider<ZodTypeProvider>();

  typed.get(
    "/enquiries/:id/shop",
    {
      schema: {
        summary: "Shop figures of an enquiry, latest version; version 0 while nobody entered any",
        params: idParams,
        response: { 200: shopVersionSchema },
      },
    },
    ({ params }) =>
      store.read(async (reader) => {
        await requireEnquiry(reader, params.id);
        const saved = await reader.latest("shop-record", params.id);
        return saved === null ? none : shown(saved);
      }),
  );

  typed.put(
    "/enquiries/:id/shop",
    {
      schema: {
        summary: "Save shop figures; `version` is the one that was read, 0 for the first",
        params: idParams,
        body: documented(shopPutSchema),
        response: { 200: shopVersionSchema, 409: refusalSchema },
      },
    },
    async ({ params, body }) => {
      const version = validate(z.int().min(0).max(1e9), body.version ?? 0, "version");
      const shop = checkedShop(body.shop);
      const saved = await store.write(async (tx) => {
        await requireEnquiry(tx, params.id);
        return tx.put("shop-record", { id: params.id, enquiry: params.id, shop }, version);
      });
      return shown(saved);
    },
  );

  typed.get(
    "/enquiries/:id/shop/history",
    {
      schema: {
        summary: "Versions of the shop figures, newest first",
        params: idParams,
        response: { 200: historySchema },
      },
    },
    async ({ params }) => ({ versions: await store.read((r) => r.history("shop-record", params.id)) }),
  );

  typed.get(
    "/enquiries/:id/shop/history/:version",
    {
      schema: {
        summary: "One earlier version of the shop figures",
        params: versionParams,
        response: { 200: shopVersionSchema },
      },
    },
    async ({ params }) => {
      const saved = await store.read((r) => r.version("shop-record", params.id, params.version));
      if (saved === null)
        throw new NotFound(`there is no version ${params.version} of the shop figures of ${params.id.slice(0, 80)}`);
      return shown(saved);
    },
  );
}
