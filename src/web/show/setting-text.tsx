import type { Setting } from "#terms";
import { settingRows } from "#report";

/** A setting as a short list of names and values, as the machine's controls take them. */
export function SettingText({ setting }: { readonly setting: Setting }) {
  return (
    <dl className="setting-text">
      {settingRows(setting).map((row) => (
        <div key={row.name}>
          <dt>{row.name}</dt>
          <dd>{row.value}</dd>
        </div>
      ))}
    </dl>
  );
}
