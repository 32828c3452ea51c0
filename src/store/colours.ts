/**
 * One colour for each shaft, in the order of the document: row, card, arrow and axis all ask here.
 *
 * From the colour schemes of Paul Tol (SRON/EPS/TN/09-002, issue 3.2, "Colour schemes"), made to be told apart by
 * colour-blind eyes: on the light ground those of his vibrant and muted schemes that stand out at least 3:1 from
 * white, on the dark ground his light scheme with the vibrant magenta for its pear. After eight they repeat.
 */
export interface ShaftColour {
  /** For style sheets: follows the theme by itself. */
  readonly variable: `var(--shaft-${number})`;
  /** For scenes that can't read style sheets. */
  readonly light: `#${string}`;
  readonly dark: `#${string}`;
}

/** Neighbours in this list differ most, since neighbours in a drive stand beside one another. */
const PAIRS: readonly (readonly [light: `#${string}`, dark: `#${string}`])[] = [
  ["#0077bb", "#77aadd"],
  ["#cc3311", "#ee8866"],
  ["#009988", "#44bb99"],
  ["#aa4499", "#ffaabb"],
  ["#332288", "#99ddff"],
  ["#ee3377", "#ee3377"],
  ["#117733", "#aaaa00"],
  ["#882255", "#eedd88"],
];

export const SHAFT_COLOURS: readonly ShaftColour[] = PAIRS.map(([light, dark], i) => ({
  variable: `var(--shaft-${i})`,
  light,
  dark,
}));

const FIRST: ShaftColour = { variable: "var(--shaft-0)", light: "#0077bb", dark: "#77aadd" };

/** The colour of the shaft at index `shaft` of the document. */
export const shaftColour = (shaft: number): ShaftColour =>
  SHAFT_COLOURS[((shaft % SHAFT_COLOURS.length) + SHAFT_COLOURS.length) % SHAFT_COLOURS.length] ?? FIRST;
