import { type Browser, chromium } from 'playwright';

/** Debian's Chromium without a screen. It asks nothing of the network on its own. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
