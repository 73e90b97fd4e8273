// looks_test.mjs RIGPROOF WEB WORK: every page at 375 and 1920 pixels, light and dark: axe-core finds nothing
// with everything opened, nothing scrolls sideways, the browser has nothing to say, nothing is asked of
// another place; pictures of all are kept in WORK/pictures. On paper; without motion; the first visit's tour.
import { mkdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { Trial } from './browsing.mjs';

const trial = new Trial('looks');
const pictures = join(trial.work, 'pictures');
mkdirSync(pictures, { recursive: true });
const widths = [375, 1920];
const schemes = ['light', 'dark'];

// What stands wider than the window, outside what scrolls by itself.
const sideways = () => {
  const wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= wide) return '';
  const out = [...document.querySelectorAll('body *')].filter((one) => one.getBoundingClientRect().right > wide + 0.5).at(-1);
  return `${document.documentElement.scrollWidth} px in ${wide}, such as ${out ? out.outerHTML.slice(0, 140) : '?'}`;
};
const open_all = async (page) => {
  await page.evaluate(() => { for (const one of document.querySelectorAll('details')) one.open = true; });
  // Rows that fold: those that are shown, not what opening one closes again.
  const folded = page.locator('main h3 button[aria-expanded="false"]');
  if (await folded.count() > 0) await folded.first().click();
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
};

await trial.run(async () => {
  const workshop = await trial.workshop('workshop', { add: ['demo/briefs', 'demo/builds'] });
  const quiet = await workshop.id_of('brief', 'Quiet living room, 4K at 60');
  const wish = await workshop.id_of('brief', "The cousin's wish");
  const build = await workshop.id_of('build', 'Evening chair');
  const failing = await workshop.id_of('build', 'Friday shelf');
  const by_words = (words) => (page) => page.getByText(words).first().waitFor();
  const by_heading = (name, level = 2) => (page) => page.getByRole('heading', { name, level }).first().waitFor();
  const claims_told = by_words(/^Of \d+ claims that count, /);
  // Name, address, what is there when it is whole.
  const pages = [
    ['first', '/about', async (page) => {
      await by_words('What is here is a demo.')(page);
      await page.getByRole('link', { name: "Look at the demo's plan" }).waitFor();
    }],
    ['briefs', '/brief', by_heading('Kept briefs')],
    ['brief', `/brief/${quiet}`, async (page) => {
      await by_heading('What may enter')(page);
      await page.getByText(/builds? (is|are|of)|can form/).first().waitFor();
    }],
    ['no-plan', '/plan', by_heading('Plan for')],
    ['plan', `/plan/${quiet}`, async (page) => {
      await by_words(/^Proven: no build/)(page);
      await page.getByRole('slider', { name: 'Budget' }).waitFor();
      await by_heading('What it rests on')(page);
    }],
    ['conflict', `/plan/${wish}`, by_heading(/cannot all be met/)],
    ['no-build', '/claims', by_heading('Kept builds')],
    ['claims', `/claims/${build}?brief=${quiet}`, claims_told],
    ['claims-failing', `/claims/${failing}?brief=${quiet}`, claims_told],
    ['case', `/case/${build}?brief=${quiet}`, async (page) => {
      await by_words(/with everything of the build in it/)(page);
      await page.locator('canvas').waitFor();
    }],
    ['air', `/air/${build}?brief=${quiet}`, async (page) => {
      await page.getByRole('slider', { name: "The case's fans" }).waitFor();
      await by_heading('How it warms up')(page);
      await page.getByRole('table', { name: 'Watts by part and load' }).waitFor();
    }],
    ['parts', '/parts', async (page) => {
      await by_heading('Parts', 1)(page);
      await page.getByRole('link', { name: 'gpu', exact: true }).first().waitFor();
    }],
    ['table', '/parts/gpu', (page) => page.getByRole('gridcell', { name: 'nimbeck-alcove-dunlin-3' }).waitFor()],
    ['price', '/parts/gpu?row=nimbeck-alcove-dunlin-3&price=nimbeck-alcove-dunlin-3', (page) => page.getByRole('gridcell', { name: 'nimbeck-alcove-dunlin-3' }).waitFor()],
    ['import', '/parts?import=1', by_heading('Paste a table in')],
    ['sheet', `/sheet/${build}?brief=${quiet}`, async (page) => {
      await by_heading('Files to save')(page);
      await page.frameLocator('iframe').getByRole('heading', { level: 1 }).first().waitFor();
    }],
    ['nowhere', '/nothing-here', by_heading('There is no such page', 1)]
  ];

  await trial.part('a page with known faults is found out', async () => {
    const context = await trial.browser.newContext({ viewport: { width: 375, height: 900 } });
    const page = await context.newPage();
    await page.setContent('<!DOCTYPE html><html><head><title></title></head><body><p style="color:#ccc;width:3000px">pale</p><img src="data:,"></body></html>');
    const found = (await trial.violations(page)).join('\n');
    for (const id of ['color-contrast', 'image-alt', 'html-has-lang', 'document-title']) trial.must(found.includes(`axe ${id} `), `${id} was not found`);
    trial.must((await page.evaluate(sideways)) !== '', 'that it scrolls sideways was not found');
    await context.close();
  });

  for (const scheme of schemes)
    for (const width of widths) {
      const context = await trial.person(workshop, { width, scheme, reducedMotion: 'reduce' });
      const page = await trial.page(context);
      for (const [name, path, whole] of pages)
        await trial.part(`${name}, ${width} px, ${scheme}`, () => trial.step(`${name} ${width} ${scheme}`, page, async () => {
          await page.goto(path);
          await whole(page);
          await page.evaluate(() => document.fonts.ready);
          trial.same(await page.getByRole('heading', { level: 1 }).count(), 1, 'h1 of the page');
          await page.screenshot({ path: join(pictures, `${name}-${width}-${scheme}.png`), fullPage: true });
          await open_all(page);
          const over = await page.evaluate(sideways);
          if (over) trial.fault(`${trial.doing}: scrolls sideways: ${over}`);
          for (const one of await trial.violations(page)) trial.fault(`${trial.doing}: ${one}`);
        }));
      await context.close();
    }

  await trial.part('on paper', async () => {
    const context = await trial.person(workshop, { width: 1280 });
    for (const name of ['claims-failing', 'sheet']) {
      const [, path, whole] = pages.find(([each]) => each === name);
      const page = await trial.page(context, path);
      await trial.step(`${name} on A4`, page, async () => {
        await whole(page);
        const file = join(pictures, `${name}.pdf`);
        await page.pdf({ path: file, format: 'A4' });
        const pdf = readFileSync(file, 'latin1');
        const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
        trial.must(Math.abs(box[1] - 595.3) < 1 && Math.abs(box[2] - 841.9) < 1, `the paper is ${box[1]} x ${box[2]} points`);
        const sheets = (pdf.match(/\/Type \/Page\b/g) ?? []).length;
        trial.must(sheets >= 1 && sheets <= 40, `${sheets} pages of paper`);
        trial.must(statSync(file).size > 10_000, 'something is printed');
        await page.setViewportSize({ width: 720, height: 1000 });  // A4 within its margins, in CSS pixels
        await page.emulateMedia({ media: 'print' });
        const over = await page.evaluate(sideways);
        if (over) trial.fault(`${trial.doing}: wider than the paper: ${over}`);
        const seen = await page.evaluate(() => ({
          screen_only: [...document.querySelectorAll('.screen-only, nav')].filter((one) => one.getBoundingClientRect().height > 0).length,
          heading: document.querySelector('main h1').getBoundingClientRect().height > 0,
          ink: getComputedStyle(document.body).color
        }));
        trial.same(seen.screen_only, 0, 'controls of the screen on paper');
        trial.same(seen.heading, true, 'the heading is printed');
        trial.must(/^rgb\((\d{1,2}), (\d{1,2}), (\d{1,2})\)$/.test(seen.ink), `dark ink: ${seen.ink}`);
      });
      await page.close();
    }
    await context.close();
  });

  await trial.part('without motion', async () => {
    const moving = (page) => page.evaluate(() => document.getAnimations().filter((one) => one.playState === 'running').length);
    for (const [wanted, expected] of [['no-preference', true], ['reduce', false]]) {
      const context = await trial.person(workshop, { reducedMotion: wanted });
      const page = await trial.page(context);
      await trial.step(`a plan that is looked for, motion: ${wanted}`, page, async () => {
        await page.route('**/api/jobs', (route) => route.fulfill({ status: 202, json: { id: 'never', question: 'plan', state: 'running' } }));
        await page.route('**/api/jobs/never/events', () => undefined);  // never answers
        await page.goto(`/plan/${quiet}`);
        await page.getByRole('progressbar', { name: 'Looking for the best builds' }).first().waitFor();
        trial.same((await moving(page)) > 0, expected, 'something moves');
      });
      await context.close();
    }
  });

  await trial.part('the tour of a first visit', async () => {
    const context = await trial.person(workshop, { toured: false, reducedMotion: 'reduce' });
    const page = await trial.page(context, `/brief/${quiet}`);
    const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '');
    const walk = [
      { path: `/brief/${quiet}`, piece: 'Markets' }, { path: `/plan/${quiet}`, piece: 'The best builds' }, { path: '/claims/', piece: 'Claims, nearest' },
      { path: '/case/', piece: 'Drawing' }, { path: '/parts', piece: 'What the catalog holds' }
    ];
    await trial.step('five steps by keyboard, then back to where one was', page, async () => {
      const offer = page.getByRole('button', { name: 'Take the tour, five steps' });
      await offer.focus();
      await page.keyboard.press('Enter');
      const tour = page.getByRole('dialog');
      const heard = [];
      for (let step = 1; step <= 5; step += 1) {
        await tour.getByText(`Step ${step} of 5`).waitFor();
        const name = await tour.getByRole('heading').innerText();
        heard.push(name);
        await trial.until(`the focus is on "${name}"`, async () => (await focused()) === name);
        // The page it speaks of, and the piece of it, once that is there.
        const { path, piece } = walk[step - 1];
        await trial.until(`step ${step} is on ${path}`, () => new URL(page.url()).pathname.startsWith(path));
        await trial.until(`"${piece}" is pointed at`, () => page.evaluate((words) => {
          const pointed = [...document.querySelectorAll('.pointed-at')];
          const box = pointed[0]?.getBoundingClientRect();
          return pointed.length === 1 && pointed[0].querySelector('h2')?.textContent.startsWith(words) && box.top < innerHeight && box.bottom > 0;
        }, piece));
        await trial.until(`the focus is still on "${name}"`, async () => (await focused()) === name);
        if (step === 1) {
          const found = await trial.violations(page);
          for (const one of found) trial.fault(`${trial.doing}: ${one}`);
          await page.screenshot({ path: join(pictures, 'tour-1280-light.png') });
        }
        if (step === 3) {  // back and forth
          await page.keyboard.press('ArrowLeft');
          await tour.getByText('Step 2 of 5').waitFor();
          await trial.until('back on the plan', () => new URL(page.url()).pathname.startsWith('/plan/'));
        }
        if (step === 3) await page.keyboard.press('ArrowRight');
        if (step === 3) await tour.getByText('Step 3 of 5').waitFor();
        if (step < 5) await page.keyboard.press('ArrowRight');
      }
      trial.same(new Set(heard).size, 5, 'steps with names of their own');
      await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');  // Done
      await tour.waitFor({ state: 'detached' });
      await trial.until('back where it began', () => new URL(page.url()).pathname === `/brief/${quiet}`);
      await page.getByRole('heading', { level: 1, name: 'Quiet living room, 4K at 60' }).waitFor();
      trial.same(await page.locator('.pointed-at').count(), 0, 'pieces that are still pointed at');
      const lost = await page.evaluate(() => document.activeElement === document.body);
      trial.same(lost, false, 'the focus fell back to the body');
    });
    await trial.step('is not offered again', page, async () => {
      await page.reload();
      await page.getByRole('heading', { level: 1 }).waitFor();
      trial.same(await page.getByText('First time here?').count(), 0, 'offers');
    });
    await context.close();
    const again = await trial.person(workshop, { toured: false, reducedMotion: 'reduce' });
    const left = await trial.page(again, `/brief/${quiet}`);
    await trial.step('can be left with Escape', left, async () => {
      await left.getByRole('button', { name: 'Take the tour, five steps' }).press('Enter');
      await left.getByText('Step 1 of 5').waitFor();
      await left.keyboard.press('Escape');
      await left.getByRole('dialog').waitFor({ state: 'detached' });
      trial.same(await left.evaluate(() => document.activeElement === document.body), false, 'the focus fell back to the body');
      trial.same(await left.getByText('First time here?').count(), 0, 'offers of a tour that was left');
    });
    await again.close();
  });

  await trial.part('the first page', async () => {
    const context = await trial.person(workshop, { toured: false, reducedMotion: 'reduce' });
    const page = await trial.page(context, '/');
    const first = (await workshop.api('/documents?kind=brief')).body.documents[0];
    const looked_at = () => page.getByRole('navigation').getByRole('listitem').filter({ hasText: ', looked at' }).allInnerTexts();
    await trial.step('says what the program does and that this is a demo; nothing counts as looked at', page, async () => {
      await page.getByRole('heading', { level: 1, name: /^Know what a PC build will do/ }).waitFor();
      await page.getByText('What is here is a demo.').waitFor();
      await page.getByRole('button', { name: 'Begin a brief of my own' }).waitFor();
      trial.same((await looked_at()).length, 0, 'stations that count as looked at');
    });
    await trial.step('leads to the plan of the demo; what was opened counts, and no more', page, async () => {
      await page.getByRole('link', { name: "Look at the demo's plan" }).click();
      await page.getByRole('heading', { level: 1, name: `Plan: ${first.name}` }).waitFor();
      trial.same(await page.getByText('First time here?').count(), 0, 'offers of a tour');
      await page.getByRole('navigation').getByRole('link', { name: /^Parts/ }).click();
      await page.getByRole('heading', { level: 1, name: 'Parts' }).waitFor();
      trial.same((await looked_at()).map((words) => words.split(/[\n,]/)[0].trim()).join(), 'Plan', 'stations that count as looked at');
    });
    await trial.step('later the same address goes on to the brief; the first page stays in reach', page, async () => {
      await page.goto('/');
      await trial.until('the brief', () => new URL(page.url()).pathname === `/brief/${first.id}`);
      await page.getByRole('heading', { level: 1, name: first.name }).waitFor();
      await page.getByRole('link', { name: 'Rigproof', exact: true }).click();
      await page.getByRole('heading', { level: 1, name: /^Know what a PC build will do/ }).waitFor();
    });
    await context.close();
  });
});
