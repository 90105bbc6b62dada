import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContextOptions, Page } from 'playwright';
import { expect } from 'vitest';
import { type RunningServer, startServer } from '../../../shared/crew/serve.ts';
import { openBrowser } from '../browser.ts';

export const LAPTOP: BrowserContextOptions = { viewport: { width: 1280, height: 800 } };

/** A browser and a service for the tests of one file, with what the pages complained of. */
export class DeskDriver {
  private complaints: string[] = [];

  private constructor(
    readonly browser: Browser,
    readonly server: RunningServer,
  ) {}

  static async start(): Promise<DeskDriver> {
    return new DeskDriver(await openBrowser(), await startServer({ port: 0, host: '127.0.0.1' }));
  }

  async stop(): Promise<void> {
    await this.browser.close();
    await this.server.close();
  }

  async open(hash: string, options: BrowserContextOptions = LAPTOP): Promise<Page> {
    const context = await this.browser.newContext(options);
    const page = await context.newPage();
    this.watch(page);
    await page.goto(`${this.server.url}/desk/${hash}`);
    return page;
  }

  /** Has what a page complains of told at the end of its test. */
  watch(page: Page): void {
    page.on('pageerror', (error) => this.complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && this.complaints.push(message.text()));
  }

  /** Closes every page and fails where one of them complained: a script error, or something the content security policy stopped. */
  async endTest(): Promise<void> {
    await Promise.all(this.browser.contexts().map((context) => context.close()));
    // What a test took the signal from is told by the browser itself.
    const found = this.complaints.filter((text) => !text.includes('net::ERR_INTERNET_DISCONNECTED'));
    this.complaints = [];
    expect(found).toEqual([]);
  }
}

export async function seriousIn(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

/** A file of the desk as this browser has it on its disk; undefined where it has none. */
export const storedText = (page: Page, path: string): Promise<string | undefined> =>
  page.evaluate(
    (wanted) =>
      new Promise<string | undefined>((resolve, reject) => {
        const opening = indexedDB.open('ohmward-desk');
        // Not there yet: the desk makes it, not this look at it.
        opening.onupgradeneeded = () => opening.transaction?.abort();
        opening.onerror = () => (opening.error?.name === 'AbortError' ? resolve(undefined) : reject(opening.error));
        opening.onsuccess = () => {
          const asked = opening.result.transaction('files').objectStore('files').get(wanted);
          asked.onsuccess = () => {
            opening.result.close();
            const row = asked.result as { readonly text: string; readonly removed?: true } | undefined;
            resolve(row?.removed ? undefined : row?.text);
          };
        };
      }),
    path,
  );

/** Holds a worker of the desk back until it is let go: what is done before it answers is done before it, however slow the page is. */
export async function holdWorker(page: Page, name: string): Promise<() => void> {
  let letGo = (): void => undefined;
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  // One that was ended meanwhile wants its script no more.
  await page.route(`**/${name}-*.js`, (route) => held.then(() => route.continue()).catch(() => undefined));
  return letGo;
}

/** Makes a fault of the bench that stands open heavier or lighter, and waits until its table has it. By name: a new weight may change their order. */
export async function weigh(page: Page, fault: string, weight: string): Promise<void> {
  const edit = page.getByRole('button', { name: `Edit fault ${fault}`, exact: true });
  const met = page.getByRole('row').filter({ has: edit }).getByRole('cell').first();
  const before = await met.textContent();
  await edit.click();
  await page.getByLabel(/^Weight/).fill(weight);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByLabel(/^Weight/).waitFor({ state: 'detached' });
  await expect.poll(() => met.textContent()).not.toBe(before);
}

/** Puts a whole text into an editor, as one that was copied elsewhere. */
export async function typeOver(page: Page, editor: string, text: string): Promise<void> {
  const box = page.getByRole('textbox', { name: editor });
  await box.focus();
  await page.keyboard.press('Control+a');
  await box.evaluate((element, copied) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', copied);
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}
