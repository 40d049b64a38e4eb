import { cautionBox } from "./caution-box.ts";
import type { Language } from "./language.ts";
import { type Sheet, type SheetBlock, type SheetColumn, type SheetSection, text, wide } from "./model.ts";
import { grouped, requirePrice, roundOut } from "./money.ts";
import type { OfferInput, PriceRange } from "./offer-input.ts";
import { paperHead, speak } from "./paper-head.ts";
import { signatureSection } from "./signatures.ts";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

/** "EUR 8 140 to 12 500 (middle EUR 9 870), for the order" */
export function priceWords(name: string, given: PriceRange, speech: Speech): string {
  const price = requirePrice(name, given);
  const said = speech.words.offer;
  const show = (value: number, way: "down" | "up" | "nearest"): string => {
    const figure = grouped(roundOut(value, way));
    return speech.language === "de" ? figure.replace(".", ",") : figure;
  };
  const { currency } = price;
  const range = fill(said.range, { currency, low: show(price.low, "down"), high: show(price.high, "up") });
  const middle =
    price.middle === null ? "" : ` (${fill(said.middle, { currency, middle: show(price.middle, "nearest") })})`;
  return `${range}${middle}, ${price.per}`;
}

/**
 * The offer page as plain data. Throws InvalidInput for a price without spread, currency or basis, and for a page
 * without cautions.
 */
export function buildOffer(input: OfferInput, language: Language = "en"): Sheet<"offer"> {
  const speech = speak(language);
  const said = speech.words.offer;
  const { notWorkedOut } = speech.words.common;
  const listed = (id: string, heading: string, items: readonly string[]): SheetSection => ({
    id,
    heading,
    blocks: [items.length === 0 ? { kind: "text", words: notWorkedOut } : { kind: "list", items }],
  });
  const valid = input.validUntil === null ? notWorkedOut : fill(said.validUntil, { date: input.validUntil });
  return {
    ...paperHead(input, speech),
    kind: "offer",
    title: fill(said.title, { title: input.title }),
    subtitle: `${fill(said.subtitle, { customer: input.customer })}.`,
    upright: true,
    rows: [
      wide(
        listed("scope", said.scope, input.scope),
        { id: "price", heading: said.price, blocks: priceBlocks(input.price, speech) },
        listed("assumptions", said.assumptions, input.assumptions),
        listed("exclusions", said.exclusions, input.exclusions),
        { id: "options", heading: said.options, blocks: [optionBlock(input, speech)] },
        { id: "validity", heading: said.validity, blocks: [{ kind: "text", words: valid }] },
        { id: "cautions", heading: "", blocks: [cautionBox(input.cautions, speech, said.conditions)] },
        signatureSection(
          [
            { role: said.forSupplier, name: input.approver },
            { role: said.forCustomer, name: null },
          ],
          speech,
        ),
      ),
    ],
  };
}

function priceBlocks(price: PriceRange | null, speech: Speech): SheetBlock[] {
  const said = speech.words.offer;
  if (price === null)
    return [{ kind: "banner", tone: "plain", words: speech.words.common.notWorkedOut, detail: said.priceNone }];
  return [
    { kind: "banner", tone: "plain", words: priceWords("price", price, speech), detail: said.rangeMeaning },
    { kind: "text", words: said.restsOn },
    { kind: "list", items: price.basis },
  ];
}

function optionBlock({ options }: OfferInput, speech: Speech): SheetBlock {
  const said = speech.words.offer;
  const { notWorkedOut } = speech.words.common;
  if (options.length === 0) return { kind: "text", words: notWorkedOut };
  const column = (key: string, name: string, share: number): SheetColumn => ({
    key,
    name,
    unit: "",
    align: "left",
    share,
  });
  return {
    kind: "table",
    caption: "",
    columns: [
      column("option", said.option, 22),
      column("words", said.optionWords, 40),
      column("price", said.optionPrice, 38),
    ],
    rows: options.map(({ name, words, price }) => [
      text(name),
      text(words.trim() === "" ? notWorkedOut : words),
      text(
        price === null
          ? notWorkedOut
          : `${priceWords(`price of ${name}`, price, speech)}. ${said.restsOn}: ${price.basis.join("; ")}`,
      ),
    ]),
  };
}
