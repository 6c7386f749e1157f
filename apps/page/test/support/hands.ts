import type { Locator, Page } from 'playwright-core';

/** A way to work the page: with a mouse, with keys alone, with a thumb. */
export interface Hands {
  readonly name: string;
  readonly press: (target: Locator) => Promise<void>;
  /** Types into a box, or chooses a word of a list. */
  readonly fill: (target: Locator, text: string) => Promise<void>;
  readonly choose: (target: Locator, word: string) => Promise<void>;
  readonly key: (key: string) => Promise<void>;
}

/** More stops than any state of the page has. */
const MOST = 500;

const keyed = (page: Page): Hands => {
  /** Goes on by Tab until the target has the focus: what cannot be reached so fails the test. */
  const reach = async (target: Locator): Promise<void> => {
    await target.waitFor();
    for (let n = 0; n < MOST; n++) {
      if (await target.evaluate((e) => e === document.activeElement)) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`the keyboard does not reach ${String(target)}`);
  };
  return {
    name: 'by keyboard alone',
    press: async (target) => {
      await reach(target);
      await page.keyboard.press('Enter');
    },
    fill: async (target, text) => {
      await reach(target);
      await page.keyboard.press('Control+a');
      await page.keyboard.type(text);
    },
    // A list takes its word's first letters, as in every browser.
    choose: async (target, word) => {
      await reach(target);
      const chosen = async (): Promise<string | undefined> =>
        await target.evaluate((e) => (e as HTMLSelectElement).selectedOptions[0]?.label);
      // A list forgets the letters of a hand that is slower than a second: type them again.
      for (let n = 0; n < 10 && (await chosen()) !== word; n++) await page.keyboard.type(word);
      if ((await chosen()) !== word) throw new Error(`the keyboard does not choose ${word}`);
    },
    key: async (key) => await page.keyboard.press(key),
  };
};

const pointed = (page: Page, name: string, press: (target: Locator) => Promise<void>): Hands => ({
  name,
  press,
  fill: async (target, text) => {
    await press(target);
    await page.keyboard.press('Control+a');
    await page.keyboard.type(text);
  },
  choose: async (target, word) => {
    await target.selectOption({ label: word });
  },
  key: async (key) => await page.keyboard.press(key),
});

export const handsOf = {
  'by pointing and typing': (page: Page): Hands =>
    pointed(page, 'by pointing and typing', async (target) => await target.click()),
  'by keyboard alone': keyed,
  'by touch, on a phone': (page: Page): Hands =>
    pointed(page, 'by touch, on a phone', async (target) => await target.tap()),
} as const;
