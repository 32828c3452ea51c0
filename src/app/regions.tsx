/** The regions that the layout composes, each from its own layer. */
import { type ComponentType, lazy, type ReactNode, Suspense } from "react";

type Loaded = Record<string, ComponentType | undefined>;
const files = import.meta.glob<Loaded>([
  "../bench/bench.tsx",
  "../bench/transport.tsx",
  "../bench/views.tsx",
  "../panels/parts-list/parts-list.tsx",
  "../panels/readouts/readouts.tsx",
  "../panels/workings.tsx",
  "../panels/findings.tsx",
  "../panels/add-stage/add-stage.tsx",
]);
const pick = (file: string, name: string): ComponentType => {
  const Region = lazy(async () => {
    const loaded = await files[file]?.().catch(() => null);
    return { default: loaded?.[name] ?? ((): ReactNode => <p>{name}</p>) };
  });
  return () => (
    <Suspense>
      <Region />
    </Suspense>
  );
};

export const Transport = pick("../bench/transport.tsx", "Transport");
export const Views = pick("../bench/views.tsx", "Views");
export const PartsList = pick("../panels/parts-list/parts-list.tsx", "PartsList");
export const Readouts = pick("../panels/readouts/readouts.tsx", "Readouts");
export const Workings = pick("../panels/workings.tsx", "Workings");
export const Findings = pick("../panels/findings.tsx", "Findings");
export const AddStage: ComponentType | undefined = undefined as ComponentType | undefined;
export const loadBench = async (): Promise<ComponentType> => pick("../bench/bench.tsx", "Bench");
