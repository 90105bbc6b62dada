import type { Locator, Page } from 'playwright';
import { PATIENCE } from '../browser.ts';

/** What an answer on the way may be: a typed value, or the label of a choice, by the title of the step. */
export type Answers = Readonly<Record<string, string>>;

/** Drives the field app as a tech does: by what stands on the screen. */
export class FieldDriver {
  readonly page: Page;
  readonly url: string;
  /** Titles of the screens that were passed, in order. */
  readonly passed: string[] = [];

  constructor(page: Page, url: string) {
    this.page = page;
    this.url = url;
  }

  async openStart(): Promise<void> {
    await this.page.goto(`${this.url}/field/`);
    await this.page.getByRole('heading', { name: 'Ohmward', level: 1 }).waitFor();
  }

  /** Opens a call on a tree and stands before its opening. */
  async openCall(tree: string, site = 'Elm Street 12'): Promise<void> {
    await this.openStart();
    await this.page.locator('.tree-line', { hasText: tree }).click();
    await this.page.getByLabel('Site').fill(site);
    await this.page.getByLabel('Your name').fill('R. Alder');
    await this.page.getByRole('button', { name: 'Open the call' }).click();
    await this.page.locator('.walk').waitFor();
  }

  /** Of the step that stands there, once the walk does: after a press that leads to a walk the screen before stands for a moment. */
  title = async (): Promise<string> => (await this.page.locator('.walk h1').textContent())?.trim() ?? '';

  /** What the screen is, for comparing before and after: title, kicker, counts and what is typed. */
  async standing(): Promise<string> {
    await this.page.locator('.walk h1').waitFor();
    const kicker = await this.page.locator('.walk .kicker').textContent();
    const counts = await this.page.locator('.walk-bar-count').allInnerTexts();
    const typed = await this.typed();
    return [await this.title(), kicker, `path ${counts[0]}`, `put back ${counts[1]}`, ...(typed === undefined ? [] : [`typed ${typed}`])].join(' | ');
  }

  /** The counts of the bar by what they count. */
  async counts(): Promise<Readonly<Record<string, number>>> {
    const items = await this.page.locator('.walk-bar-item:has(.walk-bar-count)').allTextContents();
    return Object.fromEntries(items.map((text) => [text.replace(/\s*\d+$/, ''), Number(/\d+$/.exec(text)?.[0])]));
  }

  async typed(): Promise<string | undefined> {
    const input = this.page.locator('.pad-input');
    return (await input.count()) > 0 ? input.inputValue() : undefined;
  }

  /** Holds a press until its bar is full. */
  async hold(button: Locator): Promise<void> {
    // The button itself, not whichever is the first by then.
    const element = await button.elementHandle();
    if (!element) throw new Error('There is nothing to hold.');
    const letGo = () => element.evaluate((one) => one.isConnected && one.getAttribute('data-hold') === 'let-go');
    do {
      await element.waitForElementState('enabled');
      await element.hover();
      await this.page.mouse.down();
      await this.page.waitForFunction((one) => !one.isConnected || one.getAttribute('data-hold') !== 'holding', element);
      await this.page.mouse.up();
      // What stands above may have grown and moved it from under the pointer; then it was let go too soon.
    } while (await letGo());
  }

  async readCautions(): Promise<void> {
    await this.page.locator('.walk h1').waitFor();
    const unread = this.page.locator('.hold-button');
    for (let left = await unread.count(); left > 0; left = await unread.count()) {
      await this.hold(unread.first());
      const before = left;
      await this.page.waitForFunction((count) => document.querySelectorAll('.hold-button').length < count, before);
    }
  }

  /** Presses the keys of the pad. */
  async pad(value: string): Promise<void> {
    const names: Readonly<Record<string, string>> = { '.': 'decimal point', '-': 'minus sign' };
    if (value === 'OL') await this.page.getByRole('button', { name: 'OL', exact: true }).tap();
    else for (const key of value) await this.page.getByRole('button', { name: names[key] ?? key, exact: true }).tap();
  }

  async press(name: string | RegExp): Promise<void> {
    await this.page.locator('.walk').getByRole('button', { name }).first().click();
  }

  /** Waits until the walk has moved on from what stood there. */
  async moved(from: string): Promise<void> {
    for (let waited = 0; waited < PATIENCE; waited += 50) {
      if ((await this.mark()) !== from) return;
      await this.page.waitForTimeout(50);
    }
    throw new Error(`The walk did not move on from ${from}.`);
  }

  /** Title, phase and counts: differs after every entry that the walk takes. */
  mark = (): Promise<string> =>
    this.page.evaluate(() => {
      const title = document.querySelector('h1')?.textContent;
      const phase = ['.verdict', '.hold-button', '.finding-head', '.put-back-list'].find((part) => document.querySelector(`.walk-body ${part}`));
      const counts = [...document.querySelectorAll('.walk-bar-count')].map((count) => count.textContent).join(' ');
      return `${title} ${phase ?? 'work'} ${counts}`;
    });

  async setUp(): Promise<void> {
    const unmet = this.page.locator('.unmet button');
    for (let left = await unmet.count(); left > 0; left = await unmet.count()) {
      await unmet.first().click();
      await this.page.waitForFunction((count) => document.querySelectorAll('.unmet button').length < count, left);
    }
  }

  /** Does what the open step asks, with the answer for it, up to the verdict or the next step. */
  async answer(answers: Answers): Promise<void> {
    const title = await this.title();
    await this.readCautions();
    await this.setUp();
    const before = await this.mark();
    const value = answers[title];
    if ((await this.page.locator('.pad').count()) > 0) {
      if (value === undefined) throw new Error(`No reading for “${title}”.`);
      await this.pad(value);
      await this.page.getByRole('button', { name: 'Enter', exact: true }).tap();
    } else if ((await this.page.locator('.choices').count()) > 0) {
      if (value === undefined) throw new Error(`No answer for “${title}”.`);
      await this.page.locator('.choice', { hasText: value }).first().tap();
    } else await this.press(/^Done$/);
    await this.moved(before);
  }

  async goOn(): Promise<void> {
    const before = await this.mark();
    await this.press(/^Go on/);
    await this.moved(before);
  }

  /** One step from its cautions past its verdict. */
  async step(answers: Answers): Promise<void> {
    this.passed.push(await this.title());
    await this.answer(answers);
    if ((await this.page.locator('.verdict').count()) > 0) await this.goOn();
  }

  /** Walks until a title stands on the screen. */
  async walkTo(title: string, answers: Answers, most = 60): Promise<void> {
    for (let taken = 0; taken < most; taken += 1) {
      if ((await this.title()) === title) return;
      await this.step(answers);
    }
    throw new Error(`“${title}” did not come within ${most} steps: ${this.passed.join(' > ')}`);
  }

  async start(): Promise<void> {
    await this.readCautions();
    const before = await this.mark();
    await this.press(/^Start/);
    await this.moved(before);
  }

  async goOnAllTheSame(): Promise<void> {
    const before = await this.mark();
    await this.press('Go on all the same');
    await this.moved(before);
  }

  /** From a finding, accepted, to the put-back list. */
  async repair(): Promise<void> {
    await this.readCautions();
    await this.press(/^Accept/);
    await this.press('Repaired');
    await this.page.getByRole('button', { name: 'It is repaired' }).click();
    await this.page.locator('dialog').waitFor({ state: 'detached' });
  }

  /** From a finding to its report: repaired, everything put back, tried again, closed. */
  async closeFixed(sees: string): Promise<void> {
    await this.repair();
    await this.putAllBack();
    await this.setUp();
    await this.page.locator('.choice', { hasText: sees }).first().click();
    await this.press('Close the call');
    await this.page.getByRole('heading', { name: 'Service report' }).waitFor();
  }

  async putAllBack(): Promise<void> {
    await this.page.locator('.ritual-steps').waitFor();
    await this.page.locator('[aria-current="step"]', { hasNotText: 'Repair' }).waitFor();
    const items = this.page.locator('.put-back-list button');
    for (let left = await items.count(); left > 0; left = await items.count()) {
      await items.first().click();
      await this.page.waitForFunction((count) => document.querySelectorAll('.put-back-list button').length < count, left);
    }
  }
}
