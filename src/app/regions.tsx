/** The regions that the layout composes, each from its own layer. */
import type { ComponentType } from "react";

export { Transport } from "../bench/transport";
export { Views } from "../bench/views";
export { Findings } from "../panels/findings";
export { PartsList } from "../panels/parts-list/parts-list";
export { Readouts } from "../panels/readouts/readouts";
export { Workings } from "../panels/workings";

const later = import.meta.glob<Record<string, ComponentType>>("../panels/add-stage/add-stage.tsx", { eager: true });
export const AddStage: ComponentType | undefined = Object.values(later)[0]?.AddStage;

/** The bench brings three with it, so it comes apart from the page. */
export const loadBench = async (): Promise<ComponentType> => (await import("../bench/bench")).Bench;
