import type { FumeFlag } from "#safety";
import { words } from "../../words/index.ts";

const say = words.economy;
const tone: Record<FumeFlag["action"], string> = { stop: "bad", "test first": "warn", capture: "accent" };

/** What may come off the part, what is to be done about it, and the limits; strongest action first. */
export function FumeList({ flags }: { readonly flags: readonly FumeFlag[] }) {
  return (
    <section className="sheet stack">
      <header className="stack tight">
        <h2>{say.fume}</h2>
        <p className="quiet small">{flags.length === 0 ? say.fumeNone : say.fumeLead}</p>
      </header>
      {flags.length === 0 ? null : (
        <ul className="fume">
          {flags.map((flag) => (
            <li key={flag.id}>
              <p className="row middle">
                <span className={`tag ${tone[flag.action]}`}>{say.actions[flag.action] ?? flag.action}</span>
                <strong>{flag.name}</strong>
              </p>
              <p className="small">{flag.substances.join(", ")}</p>
              {flag.note === "" ? null : <p className="small">{flag.note}</p>}
              {flag.limits.length === 0 ? (
                <p className="quiet small">{say.noLimits}</p>
              ) : (
                <ul className="plain small" aria-label={say.limits}>
                  {flag.limits.map((limit) => (
                    <li key={limit}>{limit}</li>
                  ))}
                </ul>
              )}
              {flag.sources.length === 0 ? null : <p className="quiet small">{say.sources(flag.sources.join(", "))}</p>}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
