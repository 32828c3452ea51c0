import { Tabs } from "radix-ui";
import type { ComponentType } from "react";
import { setView, useView, type ViewState } from "../store/view";
import { useFindingsName } from "./findings-name";
import { Guarded } from "./guarded";
import css from "./layout.module.css";
import { Findings, PartsList, Readouts, Workings } from "./regions";

type Sheet = ViewState["sheet"];

const SHEETS: readonly { readonly sheet: Sheet; readonly region: string; readonly Content: ComponentType }[] = [
  { sheet: "readouts", region: "The readouts", Content: Readouts },
  { sheet: "parts", region: "The parts list", Content: PartsList },
  { sheet: "workings", region: "The workings", Content: Workings },
  { sheet: "findings", region: "The findings", Content: Findings },
];

/** What stands in the sheet of a phone: readouts, parts, workings and findings as tabs. */
export const PhoneTabs = () => {
  const sheet = useView((state) => state.sheet);
  const names: Readonly<Record<Sheet, string>> = {
    readouts: "Readouts",
    parts: "Parts",
    workings: "Workings",
    findings: useFindingsName(),
  };
  return (
    <Tabs.Root
      className={css.tabs}
      value={sheet}
      onValueChange={(value) => {
        const wanted = SHEETS.find((one) => one.sheet === value);
        if (wanted) setView({ sheet: wanted.sheet });
      }}
    >
      <Tabs.List className={css.tabList} aria-label="Sheet">
        {SHEETS.map((one) => (
          <Tabs.Trigger key={one.sheet} className={css.tab} value={one.sheet}>
            {names[one.sheet]}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      {SHEETS.map(({ sheet: name, region, Content }) => (
        <Tabs.Content key={name} className={css.scroll} value={name}>
          <h2 className="only-heard">{names[name]}</h2>
          <Guarded region={region}>
            <Content />
          </Guarded>
        </Tabs.Content>
      ))}
    </Tabs.Root>
  );
};
