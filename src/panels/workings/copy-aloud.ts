import { copyText } from "../../store/clipboard";
import { announce } from "../../store/view";

/** Copies a text and says whether the browser let this page do it. */
export async function copyAloud(text: string, what: string): Promise<boolean> {
  const isCopied = await copyText(text);
  announce(isCopied ? `${what} copied.` : `The browser does not let this page copy ${what.toLowerCase()}.`);
  return isCopied;
}
