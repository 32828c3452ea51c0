/** The regions that the layout composes, each from its own layer. */
import type { ComponentType, ReactNode } from "react";

type Loaded = Record<string, ComponentType | undefined>;
const eager = import.meta.glob<Loaded>(
  [
    "../bench/transport.tsx",
    "../bench/views.tsx",
    "../panels/parts-list/parts-list.tsx",
    "../panels/readouts/readouts.tsx",
    "../panels/workings.tsx",
    "../panels/findings.tsx",
    "../panels/add-stage/add-stage.tsx",
  ],
  { eager: true },
);
const lazy = import.meta.glob<Loaded>("../bench/bench.tsx");
const awaited = (what: string) => (): ReactNode => <p>{what}</p>;
const pick = (file: string, name: string): ComponentType => eager[file]?.[name] ?? awaited(name);

export const Transport = pick("../bench/transport.tsx", "Transport");
export const Views = pick("../bench/views.tsx", "Views");
export const PartsList = pick("../panels/parts-list/parts-list.tsx", "PartsList");
export const Readouts = pick("../panels/readouts/readouts.tsx", "Readouts");
export const Workings = pick("../panels/workings.tsx", "Workings");
export const Findings = pick("../panels/findings.tsx", "Findings");
export const AddStage: ComponentType | undefined = eager["../panels/add-stage/add-stage.tsx"]?.AddStage;
export const loadBench = async (): Promise<ComponentType> => {
  const load = lazy["../bench/bench.tsx"];
  return (load ? (await load()).Bench : undefined) ?? awaited("Bench");
};
