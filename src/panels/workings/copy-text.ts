import { announce } from "../../store/view";

/** Copies a text and says so; false where the browser doesn't let this page copy. */
export async function copyText(text: string, what: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    announce(`${what} copied.`);
    return true;
  } catch {
    announce(`The browser does not let this page copy ${what.toLowerCase()}.`);
    return false;
  }
}
