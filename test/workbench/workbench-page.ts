import type { Frame, Locator, Page } from 'playwright-core';

/** The editor's window as a user handles it. Everything waits for what it needs to see, never for a time. */
export class WorkbenchPage {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  /** Opens a file of the folder from the explorer, to stay open. */
  async openFile(name: string): Promise<void> {
    await this.page.locator('.explorer-folders-view').getByText(name, { exact: true }).dblclick();
    await this.tab(name).waitFor();
    await this.lineHolding('lesson').waitFor();
  }

  async runCommand(title: string): Promise<void> {
    await this.page.keyboard.press('F1');
    const input = this.page.locator('.quick-input-box input');
    await input.fill(`>${title}`);
    const row = this.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: title });
    await row.waitFor();
    await input.press('Enter');
    await input.waitFor({ state: 'hidden' });
  }

  /** Puts the cursor into the lesson. Both count from 1. */
  async goTo(line: number, column: number): Promise<void> {
    await this.editor().locator('.view-lines').first().click();
    await this.page.keyboard.press('Control+g');
    const input = this.page.locator('.quick-input-box input');
    await input.fill(`:${line}:${column}`);
    await input.press('Enter');
    await this.cursorAt(line, column);
  }

  /** Waits until the editor says that its cursor stands there. */
  async cursorAt(line: number, column?: number): Promise<void> {
    const place = column === undefined ? new RegExp(`Ln ${line}, `) : `Ln ${line}, Col ${column}`;
    await this.page.locator('[id="status.editor.selection"]', { hasText: place }).waitFor();
  }

  /** Saves the lesson that has the cursor, and waits until the editor says that it is saved. */
  async save(name: string): Promise<void> {
    await this.page.keyboard.press('Control+s');
    await this.tab(name).and(this.page.locator('.tab:not(.dirty)')).waitFor();
  }

  tab(name: string): Locator {
    return this.page.locator(`.tabs-container .tab[data-resource-name="${name}"]`);
  }

  editor(): Locator {
    return this.page.locator('.editor-instance .monaco-editor').first();
  }

  lineHolding(text: string): Locator {
    return this.editor().locator('.view-line', { hasText: text }).first();
  }

  /** The page of the sheet that is in view, of the lesson with this in its address. */
  async sheet(named: string): Promise<SheetPage> {
    return new SheetPage(await this.frameHolding(`html[data-uri*="${named}"] [data-block]`));
  }

  /** The page of the panel that is in view. A web view is a frame within a frame, and hidden ones have none. */
  async frameHolding(selector: string): Promise<Frame> {
    const inner = this.page.locator('iframe.webview.ready').last().contentFrame().locator('#active-frame');
    await inner.contentFrame().locator(selector).first().waitFor();
    const frame = await (await inner.elementHandle())?.contentFrame();
    if (frame === null || frame === undefined) throw new Error('the panel has no page');
    return frame;
  }
}

/** The page of a sheet. */
export class SheetPage {
  readonly frame: Frame;

  constructor(frame: Frame) {
    this.frame = frame;
  }

  /** The version of the lesson that is painted now. */
  async paintedVersion(): Promise<number> {
    await this.frame.waitForFunction(() => document.documentElement.dataset.paintedVersion !== undefined);
    return this.frame.evaluate(() => Number(document.documentElement.dataset.paintedVersion));
  }

  /** Waits until a later version of the lesson is painted. */
  async paintedAfter(version: number): Promise<void> {
    await this.frame.waitForFunction(
      (before) => Number(document.documentElement.dataset.paintedVersion) > before,
      version,
    );
  }

  block(text: string | RegExp): Locator {
    return this.frame.locator('[data-block]', { hasText: text }).first();
  }

  text(): Promise<string> {
    return this.frame.evaluate(() => document.body.textContent ?? '');
  }
}
