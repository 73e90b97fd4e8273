// nothing_lost_test.mjs RIGPROOF WEB WORK: reloading, two tabs, back and forward, shared addresses, undo and
// redo, and a service that is killed: what was written is still there.
import { Trial } from './browsing.mjs';

const trial = new Trial('nothing lost');

await trial.run(async () => {
  const workshop = await trial.workshop('workshop', { add: ['demo/briefs', 'demo/builds'] });
  const context = await trial.person(workshop);
  const quiet = await workshop.id_of('brief', 'Quiet living room, 4K at 60');
  const build = await workshop.id_of('build', 'Evening chair');
  const field = (page, name) => page.getByRole('textbox', { name, exact: true });
  const put = async (page, name, text) => {
    await field(page, name).fill(text);
    await field(page, name).blur();
  };
  const has = (line) => trial.until(`the kept brief says ${line}`, async () => (await workshop.text_of(quiet)).split('\n').includes(line));
  const proven = (page) => page.getByText(/^Proven: no build of this catalog does better/).waitFor();

  await trial.part('reloading', async () => {
    const page = await trial.page(context, `/brief/${quiet}`);
    await trial.step('right after a change, before it can have been saved', page, async () => {
      await field(page, 'memory').fill('48');
      await field(page, 'memory').press('Enter');
      await page.reload();
      await trial.until('it is there', async () => (await field(page, 'memory').inputValue()) === '48');
      await has('memory_gb = 48');
    });
    await trial.step('while the file is typed in', page, async () => {
      await page.getByText('The brief as a file (TOML)').click();
      const area = page.getByRole('textbox', { name: /What the form writes stands here/ });
      await area.fill((await area.inputValue()).replace('storage_gb = 2000', 'storage_gb = 1500'));
      await page.reload();
      await trial.until('it is there', async () => (await field(page, 'storage').inputValue()) === '1500');
      await has('storage_gb = 1500');
    });
    await trial.step('while a plan is looked for', page, async () => {
      await page.goto(`/plan/${quiet}?best=2`);
      await page.getByText('Looking for the best builds.', { exact: true }).waitFor();
      await page.reload();
      await proven(page);
      trial.same(await page.getByRole('spinbutton', { name: 'how many' }).inputValue(), '2', 'how many builds the address asks for');
      trial.same(await page.getByRole('button', { name: /^Open its claims/ }).count() >= 2, true, 'two builds at least');
    });
    await page.close();
  });

  await trial.part('undo and redo', async () => {
    const page = await trial.page(context, `/brief/${quiet}`);
    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    const redo = page.getByRole('button', { name: 'Redo', exact: true });
    await trial.step('go on across a reload', page, async () => {
      await put(page, 'memory', '64');
      await has('memory_gb = 64');
      await put(page, 'temp', '26');
      await has('temp_c = 26');
      await page.reload();
      await trial.until('undo is offered', () => undo.isEnabled());
      await undo.click();
      await trial.until('the room is cool again', async () => (await field(page, 'temp').inputValue()) === '23');
      await has('temp_c = 23');
      await undo.click();
      await has('memory_gb = 48');
      await redo.click();
      await has('memory_gb = 64');
      await page.reload();
      await trial.until('redo is offered after a reload', () => redo.isEnabled());
      await redo.click();
      await has('temp_c = 26');
    });
    await page.close();
  });

  await trial.part('two tabs', async () => {
    const first = await trial.page(context, `/brief/${quiet}`);
    const second = await trial.page(context, `/brief/${quiet}`);
    first.allow(/status of 409/);
    second.allow(/status of 409/);
    const told = second.getByRole('alert').filter({ hasText: 'It was changed elsewhere while you wrote here' });
    await trial.step('that change one brief: told, both kept, mine on top', second, async () => {
      await field(second, 'temp').waitFor();
      await put(first, 'temp', '19');
      await has('temp_c = 19');
      await put(second, 'temp', '28');
      await told.waitFor();
      trial.same(await field(second, 'temp').inputValue(), '28', 'mine');
      await has('temp_c = 19');
      await second.getByRole('button', { name: 'Put mine on top' }).click();
      await has('temp_c = 28');
      const { body } = await workshop.api(`/documents/${quiet}/revisions`);
      const texts = await Promise.all(body.revisions.map(async ({ revision }) =>
        (await workshop.api(`/documents/${quiet}?revision=${revision}`)).body.text));
      trial.must(texts.some((text) => /^temp_c = 19$/m.test(text)), 'theirs is among the revisions');
    });
    await trial.step('or theirs, with mine under Undo', second, async () => {
      await put(first, 'temp', '21');  // from a revision that is old by now: told there
      await first.getByRole('alert').filter({ hasText: 'It was changed elsewhere' }).waitFor();
      await first.getByRole('button', { name: /^Take theirs/ }).click();
      await trial.until('theirs is shown', async () => (await field(first, 'temp').inputValue()) === '28');
      await first.getByRole('button', { name: 'Undo', exact: true }).click();
      await has('temp_c = 21');
    });
    await trial.step('an unsolved conflict is there after a reload', second, async () => {
      await put(second, 'temp', '30');
      await told.waitFor();
      await second.reload();
      await told.waitFor();
      trial.same(await field(second, 'temp').inputValue(), '30', 'mine');
      await second.getByRole('button', { name: /^Take theirs/ }).click();
      await told.waitFor({ state: 'detached' });
    });
    await first.close();
    await second.close();
  });

  await trial.part('addresses', async () => {
    const page = await trial.page(context, `/claims/${build}?brief=${quiet}`);
    const opened = (at) => at.locator('button[aria-expanded="true"]').first();
    await trial.step('say what is open: the same in another tab', page, async () => {
      const button = page.getByRole('heading', { level: 3 }).getByRole('button').nth(2);
      const name = await button.innerText();
      await button.click();
      await trial.until('the address has it', () => /[?&]open=/.test(page.url()));
      const other = await trial.page(context, page.url());
      trial.same(await opened(other).innerText(), name, 'the open claim');
      await other.close();
    });
    await trial.step('back and forward', page, async () => {
      const at_claims = page.url();
      await page.getByRole('navigation').getByRole('link', { name: /^Air and power/ }).click();
      const slider = page.getByRole('slider', { name: "The case's fans" });
      await slider.fill('66');
      await trial.until('the address has it', () => /[?&]speed=66/.test(page.url()));
      const at_air = page.url();
      await page.goBack();
      await page.getByRole('heading', { level: 1, name: /^Claims of Evening chair/ }).waitFor();
      trial.same(page.url(), at_claims, 'the address one goes back to');
      await opened(page).waitFor();
      await page.goForward();
      await slider.waitFor();
      trial.same(page.url(), at_air, 'the address one goes forward to');
      trial.same(await slider.inputValue(), '66', 'the speed');
      const other = await trial.page(context, at_air);
      const there = other.getByRole('slider', { name: "The case's fans" });
      await there.waitFor();
      trial.same(await there.inputValue(), '66', 'the speed in another tab');
      await other.close();
    });
    await page.close();
  });

  await trial.part('the service is killed', async () => {
    const page = await trial.page(context, `/brief/${quiet}`);
    page.allow(/ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE|ERR_CONTENT_LENGTH_MISMATCH|ERR_SOCKET/);
    await trial.step('while a change has just been kept and another has not', page, async () => {
      await put(page, 'memory', '96');
      await has('memory_gb = 96');
      await workshop.kill();
      await put(page, 'storage', '4000');
      await page.getByText('Not saved.', { exact: true }).waitFor();
      await workshop.start();
      await has('memory_gb = 96');  // what was told as saved survived
      await page.reload();
      await trial.until('what was not saved is there', async () => (await field(page, 'storage').inputValue()) === '4000');
      await has('storage_gb = 4000');
      await page.getByText(/^Saved as revision \d+\.$/).waitFor();
    });
    await trial.step('all kept briefs and builds are there', page, async () => {
      const briefs = (await workshop.api('/documents?kind=brief')).body.documents.length;
      const builds = (await workshop.api('/documents?kind=build')).body.documents.length;
      trial.same(briefs, 6, 'briefs');
      trial.same(builds, 13, 'builds');
    });
    await page.close();
  });
});
