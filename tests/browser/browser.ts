import { type Browser, chromium, type LaunchOptions } from 'playwright';

/** How long what a page is to show next may take, ms: on a machine that does much else at once, a page that opens in one second takes twenty. */
export const PATIENCE = 90_000;

/** Debian's Chromium without a screen. It asks nothing of the network on its own. */
export const CHROMIUM: LaunchOptions = {
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-background-networking'],
};

/** A browser whose pages are all waited for with patience. */
export async function openBrowser(): Promise<Browser> {
  const browser = await chromium.launch(CHROMIUM);
  const newContext = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await newContext(options);
    context.setDefaultTimeout(PATIENCE);
    return context;
  };
  return browser;
}
