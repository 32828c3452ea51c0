/** Which key presses mean which command, and which are none of ours. */
import { type Command, run } from "./command";

type Press = Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "shiftKey" | "altKey">;

/** A key press as `Mod+Shift+Z`. A sign that itself needs Shift (`?`) stands alone. */
export const pressName = ({ key, ctrlKey, metaKey, shiftKey, altKey }: Press): string => {
  const name = key === " " ? "Space" : key.length === 1 ? key.toUpperCase() : key;
  const isSign = name.length === 1 && name.toLowerCase() === name.toUpperCase();
  const parts = [ctrlKey || metaKey ? "Mod" : "", altKey ? "Alt" : "", shiftKey && !isSign ? "Shift" : "", name];
  return parts.filter(Boolean).join("+");
};

/** Single keys can be switched off, for those whose speech input or hands press them by chance (WCAG 2.2, 2.1.4). */
const SINGLE_KEYS = "turnwise.single-keys";

export const singleKeysOn = (): boolean => {
  try {
    return localStorage.getItem(SINGLE_KEYS) !== "off";
  } catch {
    return true;
  }
};

export const setSingleKeys = (on: boolean): void => {
  try {
    localStorage.setItem(SINGLE_KEYS, on ? "on" : "off");
  } catch {
    // Storage is forbidden: single keys stay as they are.
  }
};

/** Where one types. */
export const TYPED_IN =
  "input:not([type=checkbox],[type=radio],[type=range],[type=button]), textarea, select, [contenteditable]";
/** Where these have the focus, Space is theirs. */
const PRESSED =
  "button, a[href], summary, input, [role=tab], [role=menuitem], [role=slider], [role=option], [role=switch]";

const isOurs = (press: string, target: EventTarget | null, page: Document): boolean => {
  const at = target instanceof Element ? target : null;
  // Wherever the focus went: what stands behind an open dialog isn't reached by keys.
  if (at?.closest("dialog") || page.querySelector("dialog[open]")) return false;
  // Within a text even Mod+Z is the text's own: it takes the typing back. A number field that is being typed in
  // keeps it from us by itself.
  if (at?.closest(TYPED_IN) && (!press.startsWith("Mod+") || !at.closest("[role=spinbutton]"))) {
    return press === "Mod+S" || press === "Mod+O";
  }
  if (press.startsWith("Mod+")) return true;
  if (press === "Space" && at?.closest(PRESSED)) return false;
  return singleKeysOn();
};

/** Handles a key press anywhere on the page; returns the stop function. */
export const listenForKeys = (commands: readonly Command[], page: Document = document): (() => void) => {
  const handle = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    const press = pressName(event);
    const command = commands.find((one) => one.keys.includes(press));
    if (!command || !isOurs(press, event.target, page)) return;
    // A browser's own answer (saving the page, say) would be wrong even where the command has nothing to do.
    event.preventDefault();
    if (!event.repeat || press.startsWith("Mod+")) run(command);
  };
  page.addEventListener("keydown", handle);
  return () => page.removeEventListener("keydown", handle);
};

const isMac = (): boolean => /Mac|iPhone|iPad/.test(navigator.userAgent);

/** Names of keys that people write in another way than the browser. */
const WRITTEN: Readonly<Record<string, string | undefined>> = {
  ArrowUp: "Up",
  ArrowDown: "Down",
  ArrowLeft: "Left",
  ArrowRight: "Right",
  PageUp: "Page Up",
  PageDown: "Page Down",
};

/** A key as people write it: `Ctrl + Shift + Z`. */
export const keyWords = (press: string): string =>
  press
    // The plus sign is a key as well.
    .split(/(?<=.)\+(?=.)/)
    .map((part) => (part === "Mod" ? (isMac() ? "Command" : "Ctrl") : (WRITTEN[part] ?? part)))
    .join(" + ");
