import type { Page } from 'playwright';

/** What goes wrong in a page from now on, uncaught or written to its console as an error: a list that grows. */
export function pageErrors(page: Page): readonly string[] {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return errors;
}
