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
    page.on('pageerror', (error) => this.complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && this.complaints.push(message.text()));
    await page.goto(`${this.server.url}/desk/${hash}`);
    return page;
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
