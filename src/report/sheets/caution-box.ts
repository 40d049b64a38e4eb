import { invalid, requireText } from "#units";
import type { Sentence, SheetBlock } from "./model.ts";
import type { Speech } from "./speech.ts";
import { translateCaution } from "./translate-caution.ts";

const translationInEnglish = "translation not checked by a laser safety officer";

/** The notice that stands on every translated paper beside its cautions; nothing on an English one. */
export function translationNotice({ language, words }: Speech): Sentence[] {
  if (language === "en") return [];
  return [{ words: `${words.common.translation} (${translationInEnglish}).`, language, mark: "" }];
}

const defers = (caution: string): boolean => /local law/i.test(caution) && /laser safety officer/i.test(caution);

/**
 * The cautions of a paper, each once, in the order handed in; where none of them defers to local law and the laser
 * safety officer, a line that does is added. One that has no translation stands in English and is marked. Throws
 * InvalidInput when there is none: no paper goes out without.
 */
export function cautionBox(cautions: readonly string[], speech: Speech, title?: string): SheetBlock {
  if (cautions.length === 0) return invalid("cautions", 0, "", "at least one caution must go along with every paper");
  const { words, language } = speech;
  const whole = [...new Set(cautions.map((caution) => requireText("caution", caution).trim()))];
  const items = whole.map((caution): Sentence => {
    const item = translateCaution(caution, language);
    return item.language === language ? item : { ...item, mark: words.common.untranslated };
  });
  if (!whole.some(defers)) items.push({ words: words.common.aid, language, mark: "" });
  return { kind: "box", title: title ?? words.common.cautions, lead: "", items, notices: translationNotice(speech) };
}
