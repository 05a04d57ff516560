import type { Locator, Page } from 'playwright-core';
import { WorkbenchPage } from './workbench-page.ts';

/** The editor's window as somebody handles it who hands out lessons. */
export class HandOutSteps extends WorkbenchPage {
  /** Opens the question what is to be made, by one of the commands. */
  async askFor(command: 'Hand Out This Lesson…' | 'Hand Out All Lessons of This Folder…'): Promise<void> {
    await this.startCommand(`Handspan: ${command}`);
    await this.rows.filter({ hasText: 'Print sheet (PDF)' }).waitFor();
  }

  /** Starts a command that puts its own question in the place of the list of commands: there is no moment without a list to wait for. */
  async startCommand(title: string): Promise<void> {
    await this.page.keyboard.press('F1');
    await this.page.locator('.quick-input-box input').fill(`>${title}`);
    await this.rows.filter({ hasText: new RegExp(`^${title}`) }).click();
  }

  /** Chooses just these in the question what is to be made, and goes on. */
  async choose(...labels: readonly string[]): Promise<void> {
    const ticked = this.rows.and(this.page.locator('[aria-checked="true"]'));
    for (let left = await ticked.count(); left > 0; left = await ticked.count()) {
      const row = ticked.first();
      const label = (await row.getAttribute('aria-label')) ?? '';
      await row.click();
      await ticked.and(this.page.locator(`[aria-label="${label}"]`)).waitFor({ state: 'detached' });
    }
    for (const label of labels) {
      await this.rows.filter({ hasText: label }).click();
      await ticked.filter({ hasText: label }).waitFor();
    }
    await this.page.getByRole('button', { name: 'OK', exact: true }).click();
  }

  /** Answers the question where the files go with the folder that is offered. */
  async takeOfferedFolder(): Promise<void> {
    await this.page.locator('.quick-input-title', { hasText: 'Folder for the Files' }).waitFor();
    await this.rows.filter({ hasText: 'In the folder handed-out' }).click();
  }

  /** Answers it with a folder that is there, in the editor's own dialog. */
  async takeFolder(name: string): Promise<void> {
    await this.rows.filter({ hasText: 'In another folder…' }).click();
    await this.rows.getByText(name, { exact: true }).click();
    await this.dialogShows(new RegExp(`/${name}/$`));
    await this.page.getByRole('button', { name: /^(OK|Hand Out Here)$/ }).click();
  }

  /** Waits until the editor's dialog has this path in its line. */
  async dialogShows(path: RegExp): Promise<void> {
    await this.page.waitForFunction(
      (source) =>
        new RegExp(source, 'u').test(document.querySelector<HTMLInputElement>('.quick-input-box input')?.value ?? ''),
      path.source,
    );
  }

  /** Chooses something in the menu of a file or folder of the explorer. */
  async chooseInMenu(name: string, label: string): Promise<void> {
    const entry = this.page.locator('.explorer-folders-view').getByText(name, { exact: true });
    await entry.click({ button: 'right' });
    // A menu takes no click so soon after it came up, but it takes keys.
    await this.page.locator('.monaco-menu').getByText(label).hover();
    await this.page.locator('.monaco-menu .action-item.focused', { hasText: label }).waitFor();
    await this.page.keyboard.press('Enter');
  }

  /** A notice at the foot of the window. */
  notice(text: string | RegExp): Locator {
    return this.page.locator('.notification-list-item', {
      has: this.page.locator('.notification-list-item-message', { hasText: text }),
    });
  }

  /** Takes earlier notices away, so that no test reads those of another. */
  async clearNotices(): Promise<void> {
    await this.runCommand('Notifications: Clear All Notifications');
    await this.page.locator('.notification-list-item').first().waitFor({ state: 'hidden' });
  }

  /** The list of what a lesson yields, opened. Other lists are shut: the editor makes rows for what is in view alone. */
  async list(): Promise<Locator> {
    await this.pane('Hand Out', true);
    await this.pane('lessons', false);
    return this.page.locator('.pane', { has: this.header('Hand Out') });
  }

  async pane(name: string, open: boolean): Promise<void> {
    const header = this.header(name);
    if ((await header.getAttribute('aria-expanded')) !== String(open)) await header.click();
    await header.and(this.page.locator(`[aria-expanded="${open}"]`)).waitFor();
  }

  get rows(): Locator {
    return this.page.locator('.quick-input-list .monaco-list-row');
  }

  private header(name: string): Locator {
    return this.page.locator('.pane-header', { hasText: name });
  }
}

/** What a browser reads in a PNG file, and how it is apart from another picture. */
export interface ReadPicture {
  readonly width: number;
  readonly height: number;
  /** Opacity in the corners, from 0 to 255. */
  readonly corners: readonly number[];
  /** How many dots have ink that nothing shines through. */
  readonly inked: number;
  /** Sum of the differences of opacity to the other picture, as a share of all ink. */
  readonly apart: number;
}

export async function readPicture(page: Page, png: Uint8Array, other: Uint8Array): Promise<ReadPicture> {
  const asBase64 = [png, other].map((bytes) => Buffer.from(bytes).toString('base64'));
  return page.evaluate(async (files) => {
    const read = async (base64: string): Promise<ImageData> => {
      const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${base64}`)).blob());
      const context = new OffscreenCanvas(image.width, image.height).getContext('2d');
      if (context === null) throw new Error('the browser gives no canvas');
      context.drawImage(image, 0, 0);
      return context.getImageData(0, 0, image.width, image.height);
    };
    const [{ width, height, data }, compared] = await Promise.all([read(files[0] ?? ''), read(files[1] ?? '')]);
    const opacity = (image: ImageData, dot: number): number => image.data[4 * dot + 3] ?? 0;
    let [inked, ink, difference] = [0, 0, 0];
    const here = { width, height, data } as ImageData;
    for (let dot = 0; dot < width * height; dot += 1) {
      const alpha = opacity(here, dot);
      if (alpha === 255) inked += 1;
      ink += alpha;
      difference += Math.abs(alpha - opacity(compared, dot));
    }
    const dots = [0, width - 1, width * (height - 1), width * height - 1];
    return { width, height, corners: dots.map((dot) => opacity(here, dot)), inked, apart: difference / ink };
  }, asBase64);
}
