import type { Browser, BrowserContext, Page } from 'playwright';
import { expect } from 'vitest';
import { openBrowser } from '../browser.ts';
import { type ServedHub, servedHub } from '../hub-in-folder.ts';
import { LAPTOP } from './desk-driver.ts';

/** A hub on SQLite in a folder of its own, with desks that each have a browser profile of their own. */
export class CrewDriver {
  readonly complaints: string[] = [];

  private constructor(
    readonly browser: Browser,
    private readonly hub: ServedHub,
  ) {}

  static async start(): Promise<CrewDriver> {
    const hub = await servedHub();
    return new CrewDriver(await openBrowser(), hub);
  }

  async stop(): Promise<void> {
    await this.browser.close();
    await this.hub.stop();
  }

  get server(): ServedHub['server'] {
    return this.hub.server;
  }

  /** The code that the hub's terminal shows at the first start. */
  get ownerCode(): string {
    return this.hub.ownerCode;
  }

  get link(): string {
    return `${this.server.url}/desk/#/join/${this.ownerCode}`;
  }

  /** Another computer: nothing of the others' cookies and storage is on it. */
  async desk(): Promise<Desk> {
    const context = await this.browser.newContext(LAPTOP);
    const page = await context.newPage();
    page.on('pageerror', (error) => this.complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && this.complaints.push(`${message.text()} ${message.location().url}`));
    return new Desk(page, context, this.server.url);
  }
}

/** One computer of the crew, used by what stands on its screen. */
export class Desk {
  constructor(
    readonly page: Page,
    readonly context: BrowserContext,
    readonly url: string,
  ) {}

  async go(hash: string): Promise<void> {
    await this.page.goto(`${this.url}/desk/${hash}`);
  }

  /** Opens an invitation's link and joins, up to the page that tells the role. */
  async join(link: string, name: string, label: string): Promise<void> {
    const { page } = this;
    // A link that is opened from elsewhere: not a step within the page that stands there.
    await page.goto('about:blank');
    await page.goto(link);
    await expect.poll(() => page.url()).toBe(`${this.url}/desk/#/join`);
    await page.getByLabel('Your name in the crew').fill(name);
    await page.getByLabel('What to call this computer').fill(label);
    await page.getByRole('button', { name: 'Join', exact: true }).click();
    await page.getByRole('heading', { name: 'You are in the crew' }).waitFor();
  }

  /** Makes one invitation on the crew's page and gives its link for a phone or a desk. */
  async invite(role: string, note: string, app: 'phone' | 'desk'): Promise<string> {
    const { page } = this;
    await this.go('#/crew');
    await page.getByLabel('To join as').selectOption({ label: role });
    await page.getByLabel('Who it is for').fill(note);
    await page.getByRole('button', { name: 'Invite', exact: true }).click();
    const code = page.locator('.fresh-code');
    await code.waitFor();
    const link =
      (await code
        .locator('dd code')
        .nth(app === 'phone' ? 0 : 1)
        .textContent()) ?? '';
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await code.waitFor({ state: 'detached' });
    return link;
  }
}
