/** What is looked at and how: selection, hover, theme, folded panels, camera wishes. Never part of undo. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import type { Solved, Vec3 } from "../engine/solved";
import { documentStore } from "./document";

export type PartKind = "shaft" | "gear" | "mesh";

export interface Part {
  readonly kind: PartKind;
  readonly id: string;
}

/**
 * Named views of the bench: directions the eye looks from, along a shaft from its + or - end, or from any side (`towards` the eye, world): there at
 * the whole drive, or `near` at one place (mm).
 */
export type NamedView =
  | { readonly name: "fit" | "home" | "front" | "top" | "right" }
  | { readonly name: "along"; readonly shaft: string; readonly end: "+" | "-" }
  | {
      readonly name: "towards";
      readonly towards: Vec3;
      readonly near?: { readonly target: Vec3; readonly distance: number } | null;
    };

export type Theme = "light" | "dark" | "system";

/** How the bench draws: full 3D, simpler bodies, a flat drawing, or not yet known. */
export type Drawing = "full" | "simple" | "flat";

/** Changes being looked for: by a wish for a shaft, between two shafts, for a loop, or round a carrier. */
export type Asking =
  | { readonly kind: "wish" | "repeat"; readonly shaft: string }
  | { readonly kind: "join"; readonly shaft: string; readonly to?: string }
  | { readonly kind: "fit"; readonly mesh: string };

/** The panel to measure and to pin notes in, the structure as a tree, what the drive asks, demonstrations on one pair, drawings. */
export type Aside = "measure" | "structure" | "question" | "demos" | "drawings";

export interface ViewState {
  readonly selection: Part | null;
  readonly hover: Part | null;
  readonly theme: Theme;
  readonly panels: { readonly parts: boolean; readonly side: boolean };
  readonly sideTab: "workings" | "findings";
  /** On a phone: which sheet is up. */
  readonly sheet: "readouts" | "parts" | "workings" | "findings";
  /** The last wish for the camera; `count` tells a repeated wish from an old one, `opened` of which document it was. */
  readonly camera: { readonly view: NamedView; readonly count: number; readonly opened: number };
  readonly drawing: Drawing;
  /** One sentence on why the drawing is not full; null when it is. */
  readonly drawingReason: string | null;
  /** The person (or the address) chose the drawing: nothing changes it by itself. */
  readonly drawingChosen: boolean;
  readonly showSurfaces: boolean;
  readonly showTeeth: boolean;
  readonly showLabels: boolean;
  /** What a screen reader is told next (polite live region). */
  readonly announcement: string;
  /** The shaft (and gear) that a stage is being added to; null when none is. */
  readonly adding: {
    readonly shaft: string;
    readonly gear?: string;
    /** Choices stand on the bench itself, at the gear or at this end of the shaft. */
    readonly grow?: { readonly side?: 1 | -1 };
  } | null;
  /** What changes are being looked for; null when none are. Never together with `adding`. */
  readonly asking: Asking | null;
  /** What stands in the place of workings and findings; null for these. A stage that is being added, or changes being looked for, go first. */
  readonly aside: Aside | null;
  /** The bench fills the screen, for a class: nothing that would change the drive is offered. */
  readonly presenting: boolean;
  /** The 3D is being taken for a figure: nothing is lit or warned of in it, and marks (those on rims, cranks, bars of outputs) are as wished. */
  readonly posed: { readonly marks: boolean } | null;
  /** How many times larger than usual what a class reads is written, 1 and more. */
  readonly typeScale: number;
  /** A drive that would be, and which of its shafts (and of the gears on other shafts) are new or other than now: the bench draws those as turning ghosts. */
  readonly ghost: {
    readonly solved: Solved;
    readonly shafts: readonly string[];
    readonly gears?: readonly string[];
    /** A new mesh at an angle: its arc and cones are drawn with it. */
    readonly leaning?: string;
  } | null;
}

export const viewStore = createStore<ViewState>()(() => ({
  selection: null,
  hover: null,
  theme: "system",
  panels: { parts: true, side: true },
  sideTab: "workings",
  sheet: "readouts",
  camera: { view: { name: "home" }, count: 0, opened: -1 },
  drawing: "full",
  drawingReason: null,
  drawingChosen: false,
  showSurfaces: true,
  showTeeth: true,
  showLabels: true,
  announcement: "",
  adding: null,
  asking: null,
  aside: null,
  presenting: false,
  posed: null,
  typeScale: 1,
  ghost: null,
}));

// One thing at a time: a stage that is begun ends what was asked, and the other way round.
viewStore.subscribe(({ adding, asking }, before) => {
  if (!adding || !asking) return;
  viewStore.setState(adding === before.adding ? { adding: null } : { asking: null });
});

export const useView = <T>(selector: (state: ViewState) => T): T => useStore(viewStore, selector);

export const setView = (patch: Partial<ViewState>): void => viewStore.setState(patch);

export const select = (part: Part | null): void => viewStore.setState({ selection: part });
export const hover = (part: Part | null): void => viewStore.setState({ hover: part });

export const look = (view: NamedView): void =>
  viewStore.setState(({ camera }) => ({
    camera: { view, count: camera.count + 1, opened: documentStore.getState().opened },
  }));

/** Tells a screen reader one thing, once. */
export const announce = (announcement: string): void => viewStore.setState({ announcement });

// Another drive has other parts.
documentStore.subscribe(({ opened }, before) => {
  if (opened !== before.opened) viewStore.setState({ selection: null, hover: null });
});

export const isPart = (a: Part | null, kind: PartKind, id: string): boolean => a?.kind === kind && a.id === id;
