/** The side panel unfolded: workings and findings as two tabs. */
import { Tabs } from "radix-ui";
import { setView, useView } from "../store/view";
import { CommandButton } from "./command-button";
import { spaceCommand } from "./commands/view-commands";
import { useFindingsName } from "./findings-name";
import { Guarded } from "./guarded";
import css from "./layout.module.css";
import { Findings, Workings } from "./regions";

export const SidePanel = () => {
  const tab = useView((state) => state.sideTab);
  const findings = useFindingsName();
  return (
    <Tabs.Root
      className={css.tabs}
      value={tab}
      onValueChange={(value) => setView({ sideTab: value === "findings" ? "findings" : "workings" })}
    >
      <div className={css.bar}>
        <Tabs.List className={css.tabList} aria-label="Workings and findings">
          <Tabs.Trigger className={css.tab} value="workings">
            Workings
          </Tabs.Trigger>
          <Tabs.Trigger className={css.tab} value="findings">
            {findings}
          </Tabs.Trigger>
        </Tabs.List>
      </div>
      <Tabs.Content className={css.scroll} value="workings">
        <h2 className="only-heard">Workings</h2>
        <Guarded region="The workings">
          <Workings />
        </Guarded>
      </Tabs.Content>
      <Tabs.Content className={css.scroll} value="findings">
        <h2 className="only-heard">Findings</h2>
        <Guarded region="The findings">
          <Findings />
        </Guarded>
        <div className={css.foot}>
          <CommandButton command={spaceCommand} />
        </div>
      </Tabs.Content>
    </Tabs.Root>
  );
};
