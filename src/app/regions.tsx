/** The regions that the layout composes, each from its own layer. */
import type { ComponentType } from "react";

export { Transport } from "../bench/transport";
export { Views } from "../bench/views";
export { AddStage } from "../panels/add-stage/add-stage";
export { Findings } from "../panels/findings";
export { PartsList } from "../panels/parts-list/parts-list";
export { Readouts } from "../panels/readouts/readouts";
export { Workings } from "../panels/workings";

/** The bench brings three with it, so it comes apart from the page. */
export const loadBench = async (): Promise<ComponentType> => (await import("../bench/bench")).Bench;
