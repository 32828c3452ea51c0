/** What several browser tests do with the page. */
import { readFileSync } from "node:fs";
import axe from "axe-core";
import type { Download, Page } from "playwright-core";

export const headline = (page: Page, text: string): Promise<void> => page.getByText(text).first().waitFor();

/** Types a number into a field of the parts list and settles it. */
export const enter = async (page: Page, field: string, text: string): Promise<void> => {
  const box = page.getByRole("spinbutton", { name: field, exact: true }).first();
  await box.fill(text);
  await box.press("Enter");
};

/** Takes the pickers away, which a test can't answer: files then go by input and download, as in other browsers. */
export const withoutPickers = async (page: Page): Promise<void> => {
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, "showOpenFilePicker");
    Reflect.deleteProperty(window, "showSaveFilePicker");
  });
};

export const downloadOf = async (page: Page, act: () => Promise<void>): Promise<{ name: string; text: string }> => {
  const [download] = await Promise.all<[Promise<Download>, Promise<void>]>([page.waitForEvent("download"), act()]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
};

/** Drops a file on the middle of the page. */
export const drop = async (page: Page, name: string, type: string, bytes: Uint8Array): Promise<void> => {
  await page.evaluate(
    ([name, type, coded]) => {
      const bytes = Uint8Array.from(atob(coded), (sign) => sign.charCodeAt(0));
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([bytes], name, { type }));
      const target = document.elementFromPoint(innerWidth / 2, innerHeight / 2) ?? document.body;
      for (const event of ["dragenter", "dragover", "drop"]) {
        target.dispatchEvent(new DragEvent(event, { dataTransfer, bubbles: true, cancelable: true }));
      }
    },
    [name, type, Buffer.from(bytes).toString("base64")] as const,
  );
};

/** What axe finds wrong by WCAG 2.2 A and AA and its own good practice, one line each. */
export const violations = async (page: Page): Promise<string[]> => {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const checker = (window as unknown as { axe: typeof import("axe-core") }).axe;
    const { violations } = await checker.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    });
    return violations.flatMap(({ id, help, nodes }) =>
      nodes.map(({ target, any }) => `${id}: ${help} at ${target.join(" ")} (${any[0]?.message ?? ""})`),
    );
  });
};

/** Elements that stick out of the page at the sides, where nothing scrolls them. */
export const overflowing = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const scrolls = (element: Element | null): boolean =>
      element !== null &&
      (/auto|scroll|hidden|clip/.test(getComputedStyle(element).overflowX) || scrolls(element.parentElement));
    return [...document.querySelectorAll("body *")]
      .filter((element) => {
        const { left, right, width } = element.getBoundingClientRect();
        const parent = element.parentElement;
        return width > 1 && (left < -1 || right > innerWidth + 1) && parent !== document.body && !scrolls(parent);
      })
      .map((element) => element.outerHTML.slice(0, 120));
  });
