/** A whole English caution and its German one. Places in braces: `{nm}` is a number, others are words of `names`. */
export interface TranslatedCaution {
  readonly en: string;
  readonly de: string;
}

/** Words that stand in the places of the cautions. */
export const namesDe: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  family: { aluminium: "Aluminium", magnesium: "Magnesium", titanium: "Titan" },
  substance: { lead: "Blei", chromate: "Chromat", cadmium: "Cadmium", asbestos: "Asbest" },
  Substance: { Lead: "Blei", Chromate: "Chromat", Cadmium: "Cadmium", Asbestos: "Asbest" },
  test: {
    "a lead swab or XRF": "Blei-Schnelltest oder RFA",
    "a chromate swab or XRF with laboratory confirmation": "Chromat-Schnelltest oder RFA mit Bestätigung im Labor",
    "XRF or a laboratory": "RFA oder Labor",
    "a laboratory": "Labor",
  },
};

/**
 * German for the sentences of `#safety`, of the metals in `#library` and of the reports. Own translation, not checked
 * by a laser safety officer; every paper that uses it says so. A sentence that is not here is shown in English.
 */
export const cautionsDe: readonly TranslatedCaution[] = [
  {
    en: "{Substance} is said to be present: stop. This is work for a specialist under the local rules for it.",
    de: "{Substance} soll vorhanden sein: anhalten. Das ist Arbeit für eine Fachfirma nach den örtlichen Vorschriften dafür.",
  },
  {
    en: "This layer may hold {substance}: test it ({test}) before any laser work.",
    de: "Diese Schicht kann {substance} enthalten: vor jeder Laserarbeit prüfen ({test}).",
  },
  {
    en: "{Substance} present: stop, specialist work under local law.",
    de: "{Substance} vorhanden: anhalten, Arbeit für eine Fachfirma nach örtlichem Recht.",
  },
  {
    en: "{Substance} content unknown: test before any stripping.",
    de: "Gehalt an {Substance} unbekannt: vor jedem Abtragen prüfen.",
  },
  {
    en: "Class 4 laser: the beam, its reflections and even diffuse light from the part can blind and burn. Enclose the work or clear the area.",
    de: "Laser der Klasse 4: der Strahl, seine Reflexe und selbst Streulicht vom Werkstück können blind machen und verbrennen. Arbeit einhausen oder Bereich räumen.",
  },
  {
    en: "The beam and its reflections can harm eyes: have the laser safety officer confirm the class before use.",
    de: "Der Strahl und seine Reflexe können die Augen schädigen: die Klasse vor Gebrauch vom Laserschutzbeauftragten bestätigen lassen.",
  },
  {
    en: "Local law, the standards themselves and your laser safety officer decide; these figures are an aid for them, not a substitute.",
    de: "Örtliches Recht, die Normen selbst und Ihr Laserschutzbeauftragter entscheiden; diese Zahlen sind eine Hilfe dafür, kein Ersatz.",
  },
  {
    en: "Laser work is class 4 work: local law and the laser safety officer decide.",
    de: "Laserarbeit ist Arbeit der Klasse 4: örtliches Recht und der Laserschutzbeauftragte entscheiden.",
  },
  {
    en: "An aid for the laser safety officer, not a substitute: local law, the standards themselves and licensed practice decide.",
    de: "Eine Hilfe für den Laserschutzbeauftragten, kein Ersatz: örtliches Recht, die Normen selbst und zugelassene Fachleute entscheiden.",
  },
  {
    en: "Everyone in the laser area wears eyewear rated for {nm} nm at the level that the laser safety officer sets; other glasses do not protect.",
    de: "Alle im Laserbereich tragen Schutzbrillen für {nm} nm in der Stufe, die der Laserschutzbeauftragte festlegt; andere Brillen schützen nicht.",
  },
  {
    en: "Extract the fume at the spot through a filter for carcinogens (dust class H, EN 60335-2-69) and keep it out of everyone's breath.",
    de: "Rauch an der Bearbeitungsstelle über einen Filter für krebserzeugende Stäube (Klasse H, EN 60335-2-69) absaugen, niemand darf ihn einatmen.",
  },
  {
    en: "Fire: clear solvents, oil, dust and other fuel from around the work, keep a fire extinguisher at hand and watch the part afterwards.",
    de: "Brand: Lösemittel, Öl, Staub und anderes Brennbare ringsum entfernen, Feuerlöscher bereithalten, Werkstück danach beobachten.",
  },
  {
    en: "Fine {family} dust can burn and explode: use extraction made for it, keep sparks away, never mix it with rust dust, and put no water on it when it burns.",
    de: "Feiner {family}-Staub kann brennen und explodieren: dafür gebaute Absaugung verwenden, Funken fernhalten, nie mit Roststaub mischen, brennend nie mit Wasser löschen.",
  },
  {
    en: "Films of oil or rubber can catch fire under the beam and smoke heavily: wipe off what can be wiped off first.",
    de: "Filme aus Öl oder Gummi können unter dem Strahl Feuer fangen und stark rauchen: vorher abwischen, was sich abwischen lässt.",
  },
  {
    en: "Passive curtains to EN 12254 cover only 100 W mean or 30 J per pulse: this beam needs walls or an enclosure that are made for it (IEC 60825-4).",
    de: "Passive Vorhänge nach EN 12254 reichen nur bis 100 W im Mittel oder 30 J je Puls: dieser Strahl braucht eigens gebaute Wände oder Einhausung (IEC 60825-4).",
  },
  {
    en: "Fine aluminium dust can burn and explode: keep extraction and filters suited to light-metal dust, and keep it apart from rust and steel dust.",
    de: "Feiner Aluminiumstaub kann brennen und explodieren: Absaugung und Filter müssen für Leichtmetallstaub geeignet sein; von Rost- und Stahlstaub getrennt halten.",
  },
  {
    en: "Contains magnesium: fume and spatter ignite more easily than those of pure aluminium.",
    de: "Enthält Magnesium: Rauch und Spritzer entzünden sich leichter als bei reinem Aluminium.",
  },
  {
    en: "Fine titanium dust burns and explodes readily: keep extraction suited to light-metal dust, and inert cover where the surface must not take up oxygen.",
    de: "Feiner Titanstaub brennt und explodiert leicht: für Leichtmetallstaub geeignete Absaugung, und Schutzgas, wo die Oberfläche keinen Sauerstoff aufnehmen darf.",
  },
  {
    en: "Highly reflective: strong specular reflections travel far.",
    de: "Stark spiegelnd: gerichtete Reflexe reichen weit.",
  },
  {
    en: "Zinc boils at 1180 K: zinc oxide fume (metal fume fever). Extract at the spot.",
    de: "Zink siedet bei 1180 K: Zinkoxidrauch (Metallrauchfieber). An der Bearbeitungsstelle absaugen.",
  },
  {
    en: "Bright steel flash-rusts within hours in damp air: coat or weld soon.",
    de: "Blanker Stahl setzt in feuchter Luft binnen Stunden Flugrost an: bald beschichten oder schweißen.",
  },
  {
    en: "Fume of chromium steel may hold hexavalent chromium and nickel: extract and filter for carcinogens.",
    de: "Rauch von Chromstahl kann sechswertiges Chrom und Nickel enthalten: absaugen und für krebserzeugende Stäube filtern.",
  },
  {
    en: "Brittle: sharp local heating may crack it.",
    de: "Spröde: schroffe örtliche Erwärmung kann Risse geben.",
  },
  {
    en: "Graphite at the surface darkens what is left and may look like residue.",
    de: "Graphit an der Oberfläche dunkelt nach und kann wie Rückstand aussehen.",
  },
];
