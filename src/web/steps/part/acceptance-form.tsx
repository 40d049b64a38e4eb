import { Radio, Select, Table, TextInput } from "@mantine/core";
import type { AcceptanceDoc, TestDoc } from "../../enquiry/doc.ts";
import { MaybeNumber, WordButton } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";

interface Props {
  readonly acceptance: AcceptanceDoc;
  readonly onChange: (change: Partial<AcceptanceDoc>) => void;
}

export function AcceptanceForm({ acceptance, onChange }: Props) {
  const grade = acceptance.metalConditionMax ?? 1;
  return (
    <div className="stack">
      <div className="split">
        <ShareChoice
          label={words.part.residue}
          choices={words.part.residueChoices}
          value={acceptance.residueMax_percent ?? 5}
          max={100}
          onChange={(value) => onChange({ residueMax_percent: value })}
        />
        <Radio.Group
          label={words.part.metalCondition}
          value={String(grade)}
          onChange={(value) => onChange({ metalConditionMax: Number(value) })}
        >
          <div className="stack tight" style={{ marginTop: 6 }}>
            {[0, 1, 2, 3].map((g) => (
              <Radio key={g} value={String(g)} label={words.gradeMeaning[g]} />
            ))}
          </div>
        </Radio.Group>
        <ShareChoice
          label={words.part.confidence}
          choices={words.part.confidenceChoices}
          value={acceptance.confidence_percent ?? 80}
          min={50}
          max={99}
          onChange={(value) => onChange({ confidence_percent: value })}
        />
        <MaybeNumber
          label={words.part.temperature}
          unit="°C"
          value={acceptance.metalTemperatureMax_degC}
          emptyWords={words.part.temperatureNone}
          min={30}
          max={3500}
          width={190}
          onChange={(value) => onChange({ metalTemperatureMax_degC: value })}
        />
      </div>
      <TestRows tests={acceptance.tests ?? []} onChange={(tests) => onChange({ tests })} />
    </div>
  );
}

interface ShareProps {
  readonly label: string;
  readonly choices: Readonly<Record<number, string>>;
  readonly value: number | string;
  readonly min?: number;
  readonly max: number;
  readonly onChange: (value: number) => void;
}

/** Plain choices with the number behind them, and an own number for whoever needs it. */
function ShareChoice({ label, choices, value, min = 0, max, onChange }: ShareProps) {
  const known = String(value) in choices;
  return (
    <div>
      <Radio.Group
        label={label}
        value={known ? String(value) : "own"}
        onChange={(next) => next !== "own" && onChange(Number(next))}
      >
        <div className="stack tight" style={{ marginTop: 6 }}>
          {Object.entries(choices).map(([share, text]) => (
            <Radio key={share} value={share} label={text} />
          ))}
        </div>
      </Radio.Group>
      <div className="row middle" style={{ marginTop: 8 }}>
        <span className="quiet small">{words.part.own}</span>
        <MaybeNumber
          label={`${label}, ${words.part.own}`}
          hideLabel
          unit="%"
          value={value}
          emptyWords=""
          min={min}
          max={max}
          width={92}
          required
          onChange={(next) => next !== null && onChange(next)}
        />
      </div>
    </div>
  );
}

function TestRows({
  tests,
  onChange,
}: {
  readonly tests: readonly TestDoc[];
  readonly onChange: (tests: readonly TestDoc[]) => void;
}) {
  const set = (index: number, change: Partial<TestDoc>) =>
    onChange(tests.map((test, i) => (i === index ? { ...test, ...change } : test)));
  return (
    <div className="stack tight">
      <div>
        <h3>{words.part.tests}</h3>
        <p className="quiet small">{tests.length === 0 ? words.part.testsNone : words.part.testsLead}</p>
      </div>
      {tests.length > 0 ? (
        <Table.ScrollContainer minWidth={720} type="native">
          <table className="grid">
            <thead>
              <tr>
                <th>{words.part.testKind}</th>
                <th>{words.part.testMethod}</th>
                <th>{words.part.testLimit}</th>
                <th>{words.part.testValue}</th>
                <th>{words.part.testPassed}</th>
                <th>
                  <span className="unseen">{words.part.testRemove}</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {tests.map((test, index) => (
                <tr key={index}>
                  <td>{words.tests[test.kind] ?? test.kind}</td>
                  <td>
                    <TextInput
                      size="xs"
                      aria-label={words.part.testMethod}
                      value={test.method ?? ""}
                      onChange={(e) => set(index, { method: e.currentTarget.value })}
                    />
                  </td>
                  <td className="wide">
                    <TextInput
                      size="xs"
                      aria-label={words.part.testLimit}
                      value={test.limit ?? ""}
                      onChange={(e) => set(index, { limit: e.currentTarget.value })}
                    />
                  </td>
                  <td>
                    <TextInput
                      size="xs"
                      aria-label={words.part.testValue}
                      placeholder={words.part.notMeasured}
                      value={test.value ?? ""}
                      onChange={(e) => set(index, { value: e.currentTarget.value || null })}
                    />
                  </td>
                  <td>
                    <select
                      aria-label={words.part.testPassed}
                      value={test.passed === true ? "yes" : test.passed === false ? "no" : ""}
                      onChange={(e) =>
                        set(index, { passed: e.currentTarget.value === "" ? null : e.currentTarget.value === "yes" })
                      }
                    >
                      <option value="">{words.part.notMeasured}</option>
                      <option value="yes">{words.frame.yes}</option>
                      <option value="no">{words.frame.no}</option>
                    </select>
                  </td>
                  <td>
                    <WordButton
                      label={words.part.testRemove}
                      onClick={() => onChange(tests.filter((_, i) => i !== index))}
                    >
                      ×
                    </WordButton>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Table.ScrollContainer>
      ) : null}
      <Select
        aria-label={words.part.addTest}
        placeholder={words.part.addTest}
        data={Object.entries(words.tests).map(([value, label]) => ({ value, label }))}
        value={null}
        onChange={(kind) => kind && onChange([...tests, { kind, limit: "" }])}
        w={200}
      />
    </div>
  );
}
