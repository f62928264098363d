import type { Page } from "playwright-core";

/** Contrast of the text of each visible element that holds words itself, by WCAG 2.2's definition of contrast ratio. */
export async function contrastOf(page: Page): Promise<{ text: string; contrast: number }[]> {
  return page.evaluate(() => {
    const numbers = (colour: string): number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const luminance = (colour: string): number => {
      const [red = 0, green = 0, blue = 0] = numbers(colour).map((channel) => {
        const part = channel / 255;
        return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const background = (element: Element | null): string => {
      for (let at = element; at; at = at.parentElement) {
        const { backgroundColor } = getComputedStyle(at);
        if ((numbers(backgroundColor)[3] ?? 1) > 0) return backgroundColor;
      }
      return "rgb(255, 255, 255)";
    };
    return [...document.body.querySelectorAll("*")]
      .filter((element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim()))
      .filter((element) => element.checkVisibility())
      .map((element) => {
        const levels = [luminance(getComputedStyle(element).color), luminance(background(element))];
        return {
          text: element.textContent.trim().slice(0, 60),
          contrast: (Math.max(...levels) + 0.05) / (Math.min(...levels) + 0.05),
        };
      });
  });
}
