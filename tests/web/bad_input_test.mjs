// bad_input_test.mjs RIGPROOF WEB WORK: what is wrong is told where it stands and nothing of it is written;
// what names nothing, and a service that has gone, are told in words.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Trial } from './browsing.mjs';
import { root } from './workshop.mjs';

const trial = new Trial('bad input');
const no_answer = /status of (400|404)/;

await trial.run(async () => {
  const workshop = await trial.workshop('workshop', { add: ['demo/briefs', 'demo/builds'] });
  const context = await trial.person(workshop);
  const quiet = await workshop.id_of('brief', 'Quiet living room, 4K at 60');
  const wish = await workshop.id_of('brief', "The cousin's wish");
  const file = (name) => readFileSync(join(workshop.catalog, name), 'utf8');
  // Opens a page for one part of the trial.
  const part = (name, path, work, allowed) => trial.part(name, async () => {
    const page = await trial.page(context);
    if (allowed) page.allow(allowed);
    await page.goto(path);
    await work(page);
    await page.close();
  });

  await part('fields of a brief', `/brief/${quiet}`, async (page) => {
    const field = (name) => page.getByRole('textbox', { name, exact: true });
    const before = await workshop.text_of(quiet);
    const refused = (name, typed, told) => trial.step(`${name}: ${typed}`, page, async () => {
      await field(name).fill(typed);
      await field(name).blur();
      trial.same(await field(name).getAttribute('aria-invalid'), 'true', 'the field is marked');
      const described = await field(name).evaluate((one) =>
        (one.getAttribute('aria-describedby') ?? '').split(' ').map((id) => document.getElementById(id)?.textContent ?? '').join(' '));
      trial.must(told.test(described), `what is wrong is told beside the field, for a screen reader too: ${described}`);
      await page.getByText(told).first().waitFor();
    });
    await refused('target, Slow Tide', 'sixty', /expected a number/);
    await refused('floor, Wide Fallow', '99999', /expected more than 0 and at most 2,?000/);
    await refused('memory', '32 GB', /expected a (whole )?number/);
    await refused('temp', '-300', /expected at least -20 and at most 60/);
    await trial.step('nothing of it was written; Escape gives a field back', page, async () => {
      trial.same(await workshop.text_of(quiet), before, 'the brief');
      await field('temp').focus();
      await field('temp').press('Escape');
      trial.same(await field('temp').inputValue(), '23', 'the field');
      trial.same(await field('temp').getAttribute('aria-invalid'), 'false', 'the mark');
    });
    await trial.step('money in words is told beside its field, and keeps the brief from being planned', page, async () => {
      await field('budget, IE').fill('a lot');
      await field('budget, IE').blur();
      await page.getByRole('alert').filter({ hasText: 'The brief cannot be used as it stands.' }).waitFor();
      await trial.until('the field is marked', async () => (await field('budget, IE').getAttribute('aria-invalid')) === 'true');
      await page.getByRole('row', { name: /IE: .*got "a lot"/ }).waitFor();
      trial.same(await page.getByRole('link', { name: 'Find the best builds' }).count(), 0, 'ways on to a plan');
    });
    await trial.step('the plan of it says the same, with the line', page, async () => {
      await page.getByRole('navigation').getByRole('link', { name: /^Plan/ }).click();
      await page.getByText('The brief cannot be used as it stands.').waitFor();
      const line = (await workshop.text_of(quiet)).split('\n').findIndex((each) => each.includes('"a lot"')) + 1;
      trial.must(line > 0, 'the line of the wrong budget');
      await page.getByText(`Quiet living room, 4K at 60, line ${line}`, { exact: true }).waitFor();
      await page.getByRole('link', { name: 'Mend the brief' }).click();
      await field('budget, IE').fill('1500.00');
      await field('budget, IE').blur();
      await page.getByRole('link', { name: 'Find the best builds' }).waitFor();
    });
  });

  await part('a file that is no TOML', `/brief/${quiet}`, async (page) => {
    const area = page.getByRole('textbox', { name: /What the form writes stands here/ });
    await trial.step('is told with its line, and the form waits', page, async () => {
      await page.getByText('The brief as a file (TOML)').click();
      const text = await area.inputValue();
      const lines = text.split('\n');
      const at = lines.findIndex((line) => line.startsWith('kwh_price = 0.38'));
      await area.fill([...lines.slice(0, at), 'kwh_price = 0.38 0.39', ...lines.slice(at + 1)].join('\n'));
      await page.getByText('The form is back as soon as the file below is TOML again.').waitFor();
      const told = page.getByRole('alert').filter({ hasText: 'The brief cannot be used as it stands.' });
      await told.waitFor();
      await told.getByRole('button', { name: `line ${at + 1}` }).click();
      trial.same(await area.evaluate((one) => one.value.slice(one.selectionStart, one.selectionEnd)), 'kwh_price = 0.38 0.39', 'what is marked in the file');
      trial.must((await told.innerText()).trim().split('\n').length >= 2, 'it is said what is wrong');
      await area.fill(text);
      await page.getByRole('textbox', { name: 'budget, IE' }).waitFor();
      await page.getByRole('link', { name: 'Find the best builds' }).waitFor();
    });
  });

  await part('a brief that nothing satisfies', `/plan/${wish}`, async (page) => {
    await trial.step('names what stands against each other', page, async () => {
      await page.getByText('No build of this catalog satisfies the brief: that is proven.').waitFor();
      await page.getByRole('heading', { name: /cannot all be met/ }).first().waitFor();
    });
    await trial.step('easing leads to a plan', page, async () => {
      const text = '[brief]\nname = "Far too little"\nas_of = 2026-10-01\n\n[[markets]]\nmarket = "IE"\ncurrency = "EUR"\nbudget = "260.00"\n\n[musts]\nmemory_gb = 32\n';
      const made = await workshop.api('/documents', { method: 'POST', body: { kind: 'brief', name: 'Far too little', text } });
      await page.goto(`/plan/${made.body.id}`);
      await page.getByText('at most 260.00 EUR in IE', { exact: true }).waitFor();
      await page.getByRole('heading', { name: 'This cannot be met' }).waitFor();
      await page.getByRole('button', { name: /^Ease it so far ?: at most 260.00 EUR in IE$/ }).click();
      await page.getByText(/^Proven: no build of this catalog does better/).waitFor();
      await page.getByRole('button', { name: /^Open its claims/ }).first().waitFor();
      const eased = Number(/^budget = "(.*)"$/m.exec(await workshop.text_of(made.body.id))[1]);
      const price = await page.getByRole('row', { name: /^You pay/ }).getByRole('cell').first().innerText();
      trial.must(eased > 260 && Number(/([\d.]+) EUR/.exec(price)[1]) <= eased, `the build costs ${price}, the eased budget is ${eased}`);
      await page.getByRole('button', { name: 'Undo' }).click();
      await page.getByText('at most 260.00 EUR in IE', { exact: true }).waitFor();
      await page.getByRole('heading', { name: 'This cannot be met' }).waitFor();
    });
    await trial.step('money for no card promises no frames, and its sheet is proven all the same', page, async () => {
      const text = '[brief]\nname = "Little money"\nas_of = 2026-10-01\n\n[[markets]]\nmarket = "IE"\ncurrency = "EUR"\nbudget = "480.00"\n\n' +
        '[[titles]]\ntitle = "slow-tide"\nresolution = "1920x1080"\ntarget_fps = 90\n';
      const made = await workshop.api('/documents', { method: 'POST', body: { kind: 'brief', name: 'Little money', text } });
      await page.goto(`/plan/${made.body.id}`);
      await page.getByText(/^Your target of 90 fps in Slow Tide .* is not promised by it\. It has no graphics card/).waitFor();
      await page.getByText('Proven best.').waitFor();
      await page.getByRole('button', { name: /^sheet/ }).first().click();
      const sheet = page.frameLocator('iframe[title^="The sheet of Little money"]');
      await sheet.getByText(/^Proven means: .* came to the very same parts\.$/).waitFor();
    });
  });

  await part('a cell of a table', '/parts/gpu?row=nimbeck-alcove-dunlin-3&column=length_mm', async (page) => {
    const before = file('gpu.csv');
    const cell = page.getByRole('row', { name: /nimbeck-alcove-dunlin-3/ }).getByRole('gridcell').nth(5);
    const waits = page.getByRole('region', { name: 'What waits' });
    await trial.step('that is wrong is told at it and not written', page, async () => {
      await trial.until('the cell of the address has the focus', () => cell.evaluate((one) => one === document.activeElement));
      await page.keyboard.press('Enter');
      await page.keyboard.type('-175');
      await page.keyboard.press('Enter');
      await waits.getByRole('button', { name: /length_mm/ }).waitFor();
      await trial.until('the cell is marked', async () => (await cell.getAttribute('aria-invalid')) === 'true');
      await waits.getByText(/-175/).first().waitFor();
      trial.same(file('gpu.csv'), before, 'the file');
    });
    await trial.step('waits across a reload, and can be given up', page, async () => {
      await page.reload();
      await waits.getByText(/-175/).first().waitFor();
      await waits.getByRole('button', { name: 'Put the row back as it was' }).click();
      await waits.waitFor({ state: 'detached' });
      trial.same(await cell.innerText(), '175', 'the cell');
      trial.same(file('gpu.csv'), before, 'the file');
    });
  });

  await part('an import with bad rows', '/parts?import=1', async (page) => {
    const before = file('offers.csv');
    const mapping = readFileSync(join(root, 'demo/pasted/price-list.toml'), 'utf8');
    await trial.step('each is told with its line, nothing is written', page, async () => {
      const made = await workshop.api('/documents', { method: 'POST', body: { kind: 'mapping', name: 'Price list', text: mapping } });
      trial.same(made.status, 201, 'the mapping is kept');
      await page.goto(`/parts?import=1&mapping=${made.body.id}`);
      await page.getByRole('textbox', { name: /table/i }).first().fill(
        'Art.\tWhat\tPrice\tDay\nWE61443\tWexcombe Gust 120\teight\t02.10.2026\nNK58445\ta card\t1.049,00 EUR\t40.10.2026\nZK-77\tties\t2,50 EUR\t02.10.2026\n');
      const told = page.getByRole('alert').filter({ hasText: /places? cannot be read/ });
      await told.waitFor();
      const words = await told.innerText();
      trial.must(/:2:|line 2/.test(words) && /eight/.test(words), `line 2 is told: ${words}`);
      trial.must(/:3:|line 3/.test(words) && /40\.10\.2026/.test(words), `line 3 is told: ${words}`);
      trial.must(await page.getByRole('button', { name: 'Write it' }).isDisabled(), 'it cannot be written');
      trial.same(file('offers.csv'), before, 'the file');
    });
    await trial.step('a new mapping begins without an error, and says what is still to be chosen', page, async () => {
      await page.goto('/parts?import=1');
      await page.getByRole('textbox', { name: /table/i }).first().fill(
        'Part\tShop\tCountry\tDate\tPrice\nBrantoak Crown Marl 50\tthrum\tIE\t02.07.2026\t549.00 EUR\n');
      await page.getByRole('button', { name: 'Begin a mapping' }).click();
      await page.getByText('Still to be chosen below: condition, currency, tax included.').waitFor();
      trial.same(await page.getByRole('alert').count(), 0, 'errors');
      await page.getByText('Names found in the catalog: 1').waitFor();
      for (const name of ['condition', 'tax included', 'currency']) await page.getByLabel(name, { exact: true }).selectOption('same');
      await page.getByRole('textbox', { name: 'currency, for every row' }).fill('eur');
      await page.getByLabel('sign left out of the price').fill('EUR');
      await page.getByLabel('sign left out of the price').press('Tab');
      await page.getByLabel('Days are written').selectOption('dmy');
      await page.getByText('Of 1 row 1 would be new, 0 would change, 0 are in the catalog already.').waitFor();
      trial.same(file('offers.csv'), before, 'the file');
    });
  }, no_answer);

  await part('a build of parts that are not in the catalog', '/claims', async (page) => {
    await trial.step('names the part', page, async () => {
      const made = await workshop.api('/documents', { method: 'POST', body: { kind: 'build', name: 'From elsewhere',
        text: 'name = "From elsewhere"\ncpu = "no-such-processor"\nboard = "nimbeck-terrace-v4-micro-wifi"\n' } });
      for (const at of ['claims', 'case', 'air', 'sheet']) {
        await page.goto(`/${at}/${made.body.id}`);
        await page.getByText(/no-such-processor/).first().waitFor();
        await page.getByRole('alert').first().waitFor();
      }
    });
  }, no_answer);

  await part('addresses that name nothing', '/nothing-here', async (page) => {
    await trial.step('/nothing-here', page, async () => {
      await page.getByRole('heading', { level: 1, name: 'There is no such page' }).waitFor();
      trial.must((await page.title()).includes('There is no such page'), `the window says so: ${await page.title()}`);
      await page.getByRole('link', { name: /^The brief you last worked with: / }).click();
      await page.getByRole('heading', { level: 1, name: 'There is no such page' }).waitFor({ state: 'detached' });
    });
    for (const at of ['brief', 'plan', 'claims', 'case', 'air', 'sheet'])
      await trial.step(`/${at}/xxxxxxxxxx`, page, async () => {
        await page.goto(`/${at}/xxxxxxxxxx`);
        await page.getByRole('heading', { level: 1, name: /^There is no such (brief|build)$/ }).waitFor();
        await page.getByRole('alert').filter({ hasText: 'xxxxxxxxxx' }).waitFor();
        trial.same(await page.getByRole('heading', { level: 1 }).count(), 1, 'headings of the page');
        trial.must(await page.getByRole('main').getByRole('link').count() > 1, 'ways on');
        trial.same(await page.getByRole('button', { name: 'Try again' }).count(), 0, 'buttons that try in vain');
      });
    await trial.step('/parts/nothing', page, async () => {
      await page.goto('/parts/nothing');
      await page.getByRole('heading', { level: 1, name: 'There is no such table' }).waitFor();
    });
    await trial.step('a row and a column that are not there', page, async () => {
      await page.goto('/parts/gpu?row=no-such-card&column=no_such_column');
      await page.getByText(/no-such-card/).first().waitFor();
    });
    await trial.step('a claim, a load and speeds that are not there', page, async () => {
      const build = await workshop.id_of('build', 'Evening chair');
      await page.goto(`/claims/${build}?brief=${quiet}&measured=nonsense`);
      await page.getByRole('alert').filter({ hasText: 'got "nonsense"' }).waitFor();
      await page.goto(`/claims/${build}?brief=${quiet}&open=no.such-claim&against=99`);
      await page.getByText(/^Of \d+ claims that count, /).waitFor();
      await page.goto(`/air/${build}?brief=${quiet}&load=nonsense&speed=7000&cooler=x&beside=xxxxxxxxxx`);
      await page.getByRole('slider', { name: "The case's fans" }).waitFor();
    });
  }, no_answer);

  await part('the service ends while a page is open', `/brief/${quiet}`, async (page) => {
    const memory = page.getByRole('textbox', { name: 'memory', exact: true });
    await trial.step('it is said, and what was typed stays', page, async () => {
      await memory.waitFor();
      page.allow(/ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE/);
      await workshop.stop();
      await memory.fill('48');
      await memory.blur();
      await page.getByText('Not saved.', { exact: true }).waitFor();
      await page.getByRole('alert').filter({ hasText: 'The server does not answer' }).first().waitFor();
      trial.same(await memory.inputValue(), '48', 'what was typed');
    });
    await trial.step('another page says it too', page, async () => {
      const other = await trial.page(context);
      other.allow(/ERR_CONNECTION_REFUSED/);
      await other.goto(`/plan/${quiet}`).catch(() => undefined);  // the browser's own page, not ours
      await other.close();
      await page.getByRole('button', { name: 'Begin another' }).click();
      await page.getByRole('alert').filter({ hasText: 'does not answer' }).nth(1).waitFor();
      await page.getByRole('navigation').getByRole('link', { name: /^Parts/ }).click();
      await page.getByRole('alert').filter({ hasText: /does not answer|could not be (read|loaded)|cannot be loaded/ }).first().waitFor();
      await page.goBack();
      await page.getByRole('alert').filter({ hasText: 'does not answer' }).first().waitFor();
    });
    await trial.step('when it is back, it goes on', page, async () => {
      await workshop.start();
      await page.getByRole('button', { name: 'Try again' }).first().click();
      await trial.until('what was typed is there', async () => (await memory.inputValue()) === '48');
      await trial.until('the change is kept', async () => /^memory_gb = 48$/m.test(await workshop.text_of(quiet)));
      await page.getByText(/^Saved as revision \d+\.$/).waitFor();
      trial.same(await page.getByRole('alert').filter({ hasText: 'does not answer' }).count(), 0, 'complaints left');
    });
  });
});
