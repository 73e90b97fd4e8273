// main_job_test.mjs RIGPROOF WEB WORK: from an empty store to a published sheet, by the roles and the words
// a newcomer sees; beside each step, what the service keeps of it.
import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { Trial } from './browsing.mjs';

const trial = new Trial('main job');

await trial.run(async () => {
  const workshop = await trial.workshop('workshop');
  const context = await trial.person(workshop, { toured: false, acceptDownloads: true });
  const page = await trial.page(context);
  const heading = (name) => page.getByRole('heading', { level: 1, name }).waitFor();
  const region = (name) => page.getByRole('region', { name });
  const saved = () => page.getByText(/^Saved as revision \d+\.$/).waitFor();
  let brief = '';
  let build = '';

  await trial.part('brief', async () => {
    await trial.step('nothing is there: the page says what to do first', page, async () => {
      await page.goto('/');
      await heading(/^Know what a PC build will do/);
      await page.getByText('There is no brief yet.').waitFor();
      trial.same(await page.getByRole('link', { name: /plan$/ }).count(), 0, 'plans to look at');
      // The catalog is the demo's, no brief of it is here: the one is said, the other not offered.
      await page.getByText('What is here is a demo.').waitFor();
      trial.same(await page.getByText("demo's plan").count(), 0, 'words of a brief of the demo that is not here');
      trial.same(await page.getByText('the people').count(), 0, 'people of a brief that is not here');
      trial.same(await page.getByRole('navigation').getByText(', looked at').count(), 0, 'stations that count as looked at');
    });
    await trial.step('begins a brief', page, async () => {
      await page.getByRole('button', { name: 'Begin a brief of my own' }).click();
      await heading('A new brief');
      brief = new URL(page.url()).pathname.split('/')[2];
      // The newest price of the demo was seen that day: by today all of them would be too old.
      await page.getByRole('status').filter({ hasText: '1 October 2026' }).waitFor();
      trial.must(/^offers_not_older_than_days = 14$/m.test(await workshop.text_of(brief)), 'a new brief says how old a price may be');
      trial.same(await page.getByText('First time here?').count(), 0, 'offers of a tour that was declined');
      trial.must(await page.getByRole('heading', { level: 1 }).evaluate((one) => one === document.activeElement), 'the heading is read aloud: it has the focus');
    });
    await trial.step('fills in its name, the day, money, a title, a limit', page, async () => {
      const fill = async (label, text) => {
        await page.getByRole('textbox', { name: label, exact: true }).fill(text);
        await page.getByRole('textbox', { name: label, exact: true }).blur();
      };
      await fill('name', 'Window seat');
      await heading('Window seat');
      await fill('as of', '2026-10-01');
      await fill('budget, IE', '1450.00');
      await page.getByRole('button', { name: 'Add a title' }).click();
      const to_fill = page.getByRole('alert').filter({ hasText: 'Still to be filled in' });
      await to_fill.getByText('choose a title').waitFor();
      trial.same(await page.getByText('wide-fallow').count(), 0, 'ids told to who has not chosen yet');
      await to_fill.getByRole('button').click();
      trial.same(await page.evaluate(() => document.activeElement.getAttribute('aria-label')), 'title, a new title', 'the field it leads to');
      await page.getByRole('combobox', { name: /^title, / }).selectOption('wide-fallow');
      await fill('resolution, Wide Fallow', '2560x1440');
      await fill('target, Wide Fallow', '90');
      await page.getByRole('button', { name: 'Sound pressure level' }).click();
      const noise = page.getByRole('group', { name: 'Noise' });
      await noise.getByLabel('at most').fill('40');
      await noise.getByLabel('at most').blur();
      await saved();
      const text = await trial.until('the brief is kept', async () => {
        const now = await workshop.text_of(brief);
        return /at_most = 40/.test(now) ? now : null;
      });
      for (const line of ['name = "Window seat"', 'as_of = 2026-10-01', 'budget = "1450.00"', 'title = "wide-fallow"', 'resolution = "2560x1440"',
        'target_fps = 90', 'noise_dba = { at_most = 40, load = "title", distance_m = 1 }'])
        trial.must(text.split('\n').includes(line), `the kept brief has the line ${line}:\n${text}`);
    });
    await trial.step('sees what is left', page, async () => {
      const left = page.getByRole('heading', { name: 'What is left' });
      await left.waitFor();
      await page.getByText(/\d+ builds?/).first().waitFor();
    });
  });

  await trial.part('plan', async () => {
    await trial.step('finds the best builds', page, async () => {
      await page.getByRole('link', { name: 'Find the best builds' }).click();
      await heading('Plan: Window seat');
      await page.getByText(/^Proven: no build of this catalog does better/).waitFor();
    });
    await trial.step('reads the winner: its price is under the budget, its rate over the target', page, async () => {
      const table = region('The best builds side by side');
      const price = await table.getByRole('row', { name: /^You pay/ }).getByRole('cell').first().innerText();
      const amount = Number(/([\d,]+\.\d\d) EUR/.exec(price)[1].replace(',', ''));
      trial.must(amount > 0 && amount <= 1450, `price ${price}`);
      const rate = await table.getByRole('row', { name: /Wide Fallow/ }).getByRole('cell').first().innerText();
      trial.must(Number(/^([\d.]+) fps/.exec(rate)[1]) > 0, `a rate with its unit: ${rate}`);
      await page.getByText('Proven best.').waitFor();
      await page.getByText(/Nearest to failing: .+: .+ left/).first().waitFor();
      await page.getByRole('heading', { name: 'What it rests on' }).waitFor();
    });
    await trial.step('moves the budget along the staircase and back', page, async () => {
      const budget = page.getByRole('slider', { name: 'Budget' });
      await budget.waitFor();
      const says = () => budget.getAttribute('aria-valuetext');
      trial.must((await says()).startsWith('For 1,450.00 EUR the best build costs '), `the budget of the brief: ${await says()}`);
      await budget.press('ArrowLeft');
      await trial.until('the budget moves', async () => !(await says()).startsWith('For 1,450.00 EUR'));
      await trial.until('the address carries it', () => /budget=\d+/.test(page.url()));
      await page.getByRole('button', { name: 'back to 1,450.00 EUR' }).click();
      await trial.until('the address lets it go', () => !/budget=/.test(page.url()));
    });
    await trial.step('opens the claims of the best', page, async () => {
      await page.getByRole('button', { name: /^Open its claims/ }).first().click();
      await page.getByRole('heading', { level: 1, name: /^Claims of Window seat: / }).waitFor();
      build = new URL(page.url()).pathname.split('/')[2];
      await page.getByText(/^Of \d+ claims that count, /).waitFor();
    });
  });

  await trial.part('claims', async () => {
    trial.must(build, 'there is no build to go on with');
    const claims = () => region('Claims, nearest to failing first');
    await trial.step('opens the working of one claim', page, async () => {
      const rows = claims().getByRole('listitem').filter({ has: page.getByRole('heading', { level: 3 }) });
      const button = rows.first().getByRole('button').first();
      trial.same(await button.getAttribute('aria-expanded'), 'false', 'closed at first');
      await button.click();
      trial.same(await button.getAttribute('aria-expanded'), 'true', 'opened');
      for (const fact of ['Basis', 'Source', 'Counts as']) await rows.first().getByText(fact, { exact: true }).waitFor();
      trial.must(/[?&]open=/.test(page.url()), 'the address says which is open');
    });
    const psu = async () => /^psu = "(.*)"$/m.exec(await workshop.text_of(build))[1];
    const bar = page.getByRole('status').filter({ hasText: / instead of / });
    let planned = '';
    await trial.step('takes a smaller supply: claims turn, and it is said which', page, async () => {
      planned = await psu();
      await page.getByRole('button', { name: /^change Tollard Ration/ }).click();
      await page.getByRole('searchbox', { name: /^Another supply/ }).fill('ration 400');
      await page.getByRole('button', { name: 'Tollard Ration 400', exact: true }).click();
      await bar.waitFor();
      trial.same(await psu(), 'tollard-ration-400', 'the kept supply');
      await region('What is different').waitFor();
      await claims().getByRole('listitem').filter({ hasText: 'the supply with everything at work' }).filter({ hasText: 'fails' }).waitFor();
    });
    await trial.step('tries the remedy of what fails: it holds', page, async () => {
      const failing = claims().getByRole('listitem').filter({ hasText: 'the supply with everything at work' });
      await failing.getByRole('button').first().click();
      await failing.getByText(/take the .* instead of the Tollard Ration 400/).waitFor();
      await failing.getByRole('button', { name: 'Try it' }).click();
      await trial.until('the remedy is in the build', async () => (await psu()) !== 'tollard-ration-400');
      await claims().getByRole('listitem').filter({ hasText: 'the supply with everything at work' }).filter({ hasText: 'fails' }).waitFor({ state: 'detached' });
    });
    await trial.step('takes both back', page, async () => {
      const undo = page.getByRole('button', { name: 'Undo' }).first();
      await undo.click();
      await trial.until('the small supply is back', async () => (await psu()) === 'tollard-ration-400');
      await trial.until('undo can be pressed', () => undo.isEnabled());
      await undo.click();
      await trial.until('the planned supply is back', async () => (await psu()) === planned);
      await claims().getByRole('listitem').filter({ hasText: 'the supply with everything at work' }).filter({ hasText: 'fails' }).waitFor({ state: 'detached' });
    });
  });

  await trial.part('case', async () => {
    trial.must(build, 'there is no build to go on with');
    await trial.step('sees where everything sits', page, async () => {
      const asked = page.waitForRequest((request) => request.method() === 'POST' && request.postDataJSON()?.question === 'fit');
      await page.getByRole('navigation').getByRole('link', { name: /^Case/ }).click();
      await page.getByRole('heading', { level: 1, name: /^Case of Window seat: / }).waitFor();
      trial.same((await asked).postDataJSON().inputs.brief, brief, 'the brief it is judged under');
      await page.getByText(/^Tightest: /).or(page.getByText(/, with everything of the build in it\./)).first().waitFor();
      await page.locator('canvas').waitFor();  // the model that turns: there is WebGL here
    });
    await trial.step('chooses a clearance: its claim opens, the address says it', page, async () => {
      await page.getByRole('heading', { name: 'No clearance is chosen' }).waitFor();
      const list = page.getByRole('listitem').filter({ has: page.locator('button[aria-pressed]') });
      await list.first().getByRole('button').first().click();
      await page.getByRole('heading', { name: 'Its claim' }).waitFor();
      trial.same(await list.first().getByRole('button').first().getAttribute('aria-pressed'), 'true', 'it is marked in the list');
      await list.first().getByText(/^between/).waitFor();
      await trial.until('the address says it', () => /[?&]at=/.test(page.url()));
    });
    await trial.step('turns it to the front', page, async () => {
      await page.getByRole('radio', { name: 'front' }).check();
      await trial.until('the address says it', () => /[?&]view=front/.test(page.url()));
    });
  });

  await trial.part('air', async () => {
    trial.must(build, 'there is no build to go on with');
    await trial.step('goes on to the air', page, async () => {
      await page.getByRole('navigation').getByRole('link', { name: /^Air and power/ }).click();
      await heading('Air and power');
      await page.getByRole('slider', { name: "The case's fans" }).waitFor();
    });
    await trial.step('moves the fans, keeps it, takes it back', page, async () => {
      const before = await workshop.text_of(build);
      const slider = page.getByRole('slider', { name: "The case's fans" });
      await slider.fill('77');
      await page.getByText(/fans at 77 % of full speed/).first().waitFor();
      await trial.until('the address carries it', () => /[?&]speed=77/.test(page.url()));
      await page.getByRole('button', { name: 'Keep these speeds' }).click();
      const after = await trial.until('the build has the speed', async () => {
        const text = await workshop.text_of(build);
        return text === before ? null : text;
      });
      trial.must(/\[\[fan_speeds\]\][^[]*77/.test(after), `[[fan_speeds]] with 77:\n${after}`);
      await page.getByRole('button', { name: 'Undo' }).first().click();
      await trial.until('it is taken back', async () => (await workshop.text_of(build)) === before);
    });
    await trial.step('sees what it draws', page, async () => {
      await page.getByRole('heading', { name: 'Load cases against the supply' }).waitFor();
      await page.getByRole('table', { name: 'Watts by part and load' }).waitFor();
    });
  });

  await trial.part('sheet', async () => {
    trial.must(build, 'there is no build to go on with');
    await trial.step('has the sheet made and reads it', page, async () => {
      await page.getByRole('navigation').getByRole('link', { name: /^Sheet/ }).click();
      await heading('Sheet');
      await page.getByRole('heading', { name: 'Files to save' }).waitFor();
      const sheet = page.frameLocator('iframe[title^="The sheet of Window seat"]');
      await sheet.getByRole('heading', { level: 1, name: /^Window seat/ }).waitFor();
    });
    await trial.step('saves its parts as CSV', page, async () => {
      const waiting = page.waitForEvent('download');
      await page.getByRole('link', { name: 'Save parts.csv' }).click();
      const download = await waiting;
      trial.same(download.suggestedFilename(), 'parts.csv', 'the name of the file');
      const rows = readFileSync(await download.path(), 'utf8').trim().split('\n');
      const text = await workshop.text_of(build);
      const ids = [...text.matchAll(/^(cpu|board|memory|gpu|storage|cooler|case|psu) = "([^"]+)"/gm)].map((found) => found[2]);
      trial.must(ids.length >= 6, `the build names its parts:\n${text}`);
      for (const id of ids) trial.must(rows.some((row) => row.includes(id)), `parts.csv has ${id}`);
    });
    await trial.step('chooses the dark paper: the frame has it too, and gives it back', page, async () => {
      const frame = page.locator('iframe[title^="The sheet of Window seat"]');
      // Of one pixel of the frame's margin. Behind the byte that says how its row is filtered stand its colors.
      const brightness = async () => {
        await frame.scrollIntoViewIfNeeded();
        const { x, y } = await frame.boundingBox();
        const png = await page.screenshot({ clip: { x: Math.round(x) + 5, y: Math.round(y) + 5, width: 1, height: 1 } });
        const data = [];
        for (let at = 8; at < png.length; at += png.readUInt32BE(at) + 12)
          if (png.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(png.subarray(at + 8, at + 8 + png.readUInt32BE(at)));
        const row = inflateSync(Buffer.concat(data));
        return row[1] + row[2] + row[3];
      };
      const choose = (name) => page.getByRole('radio', { name, exact: true }).press(' ');
      await trial.until('the frame is light, as the system', async () => (await brightness()) > 600);
      await choose('dark');
      await trial.until('the frame is dark', async () => (await brightness()) < 150);
      await page.frameLocator('iframe[title^="The sheet of Window seat"]').getByRole('heading', { level: 1, name: /^Window seat/ }).waitFor();
      await choose('as the system');
      await trial.until('the frame is light again', async () => (await brightness()) > 600);
    });
  });
});
