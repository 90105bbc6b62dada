import type { Page } from 'playwright';

/** Does a drill on a phone as a tech does: by what stands on the screen. */
export class DrillOnPhone {
  constructor(readonly page: Page) {}

  /** Presses a terminal of the drawing. */
  async touch(...terminals: string[]): Promise<void> {
    for (const terminal of terminals)
      await this.page
        .getByRole('button', { name: `terminal ${terminal}`, exact: true })
        .first()
        .click();
  }

  async dial(words: string): Promise<void> {
    await this.page.locator('.drill-dial').click();
    await this.page.getByRole('button', { name: words, exact: true }).click();
  }

  /** Both leads, and the press that reads: what the display then shows. */
  async read(red: string, black: string): Promise<string> {
    await this.page.locator('.drill-lead-red').click();
    await this.touch(red, black);
    const before = await this.moves();
    await this.page.getByRole('button', { name: 'Read', exact: true }).click();
    await this.page.waitForFunction(
      (count) => document.querySelector('.trouble') || Number(document.querySelector('.walk-bar-count')?.textContent) > count,
      before,
    );
    return ((await this.page.locator('.drill-display-value').textContent()) ?? '').trim();
  }

  /** What is seen of a sign. */
  async look(sign: string): Promise<string> {
    await this.page.getByRole('button', { name: 'Look', exact: true }).click();
    await this.page.getByRole('button', { name: `Look at: ${sign}` }).click();
    const seen = this.page.locator('.drill-seen');
    await seen.waitFor();
    const text = (await seen.textContent()) ?? '';
    await this.page.getByRole('button', { name: 'Close' }).click();
    return text.trim();
  }

  async turn(setting: string, state: string): Promise<void> {
    await this.page.getByRole('button', { name: 'Change', exact: true }).click();
    const button = this.page.getByRole('group', { name: setting }).getByRole('button', { name: state, exact: true });
    await button.click();
    await this.page.waitForFunction((element) => element?.getAttribute('aria-pressed') === 'true', await button.elementHandle());
    await this.page.getByRole('button', { name: 'Close' }).click();
  }

  moves = async (): Promise<number> => Number(await this.page.locator('.walk-bar-count').first().textContent());

  async answer(words: string): Promise<void> {
    await this.page.getByRole('button', { name: 'Answer' }).click();
    await this.page.getByRole('button', { name: words }).click();
    await this.page.getByRole('button', { name: 'That is it' }).click();
    await this.page.locator('.drill-comparison').waitFor();
  }

  /** The numbers of the result: own and best, by their name. */
  async numbers(): Promise<Readonly<Record<string, readonly string[]>>> {
    const rows = await this.page.locator('.drill-numbers tbody tr').all();
    return Object.fromEntries(
      await Promise.all(
        rows.map(async (row) => [
          ((await row.locator('th').textContent()) ?? '').trim(),
          (await row.locator('td').allTextContents()).map((text) => text.trim()),
        ]),
      ),
    );
  }
}
