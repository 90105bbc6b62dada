import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright';
import { CHROMIUM, PATIENCE } from '../browser.ts';

const VIEWPORT = { width: 360, height: 640 };

/** A phone: one browser with its storage on disk, which can be switched off, pulled from under the app, and started again. */
export class Phone {
  readonly #profile: string;
  #context: BrowserContext | undefined;

  private constructor(profile: string) {
    this.#profile = profile;
  }

  static async make(): Promise<Phone> {
    return new Phone(await mkdtemp(join(tmpdir(), 'ohmward-phone-')));
  }

  get context(): BrowserContext {
    if (!this.#context) throw new Error('The phone is off.');
    return this.#context;
  }

  async on(): Promise<Page> {
    this.#context = await chromium.launchPersistentContext(this.#profile, {
      ...CHROMIUM,
      viewport: VIEWPORT,
      hasTouch: true,
    });
    this.#context.setDefaultTimeout(PATIENCE);
    return this.#context.pages()[0] ?? this.#context.newPage();
  }

  /** Ends the browser's own process at once, as a dead battery does: no page is told, nothing is flushed. */
  async dies(): Promise<void> {
    const context = this.context;
    this.#context = undefined;
    const ended = new Promise((resolve) => context.once('close', resolve));
    process.kill(await this.#browserProcess(), 'SIGKILL');
    await ended;
  }

  /** The process that was started with this phone's profile and is no helper of it. */
  async #browserProcess(): Promise<number> {
    for (const entry of await readdir('/proc')) {
      if (!/^\d+$/.test(entry)) continue;
      const args = (await readFile(`/proc/${entry}/cmdline`, 'utf8').catch(() => '')).split('\0');
      if (args.includes(`--user-data-dir=${this.#profile}`) && !args.some((arg) => arg.startsWith('--type='))) return Number(entry);
    }
    throw new Error('No browser runs with this profile.');
  }

  async off(): Promise<void> {
    await this.#context?.close();
    this.#context = undefined;
  }

  async throwAway(): Promise<void> {
    await this.off();
    await rm(this.#profile, { recursive: true, force: true, maxRetries: 5 });
  }
}
