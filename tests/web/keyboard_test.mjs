// keyboard_test.mjs RIGPROOF WEB WORK: the main job with the keyboard alone. Wherever the focus is it can be
// seen, and after what was done it has not fallen back to the body.
import { Trial } from './browsing.mjs';

const trial = new Trial('keyboard');
const most_tabs = 400;

// Where the focus is: what it is called, and whether it shows. An outline of the element, of its marks, or of
// what stands for it beside it (a radio button's word).
const where = () => {
  const one = document.activeElement;
  const outlined = (style) => style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) > 0 && !/, 0\)$|transparent/.test(style.outlineColor);
  const lit = (element, part = null) => element !== null && element !== undefined && outlined(getComputedStyle(element, part));
  const box = one.getBoundingClientRect();
  // A drawing shows it by its strokes, in the color that focus has everywhere.
  const probe = document.body.appendChild(document.createElement('i'));
  probe.style.color = 'var(--seen)';
  const seen = getComputedStyle(probe).color;
  probe.remove();
  const drawn = one instanceof SVGElement && [...one.querySelectorAll('*')].some((each) => getComputedStyle(each).stroke === seen && parseFloat(getComputedStyle(each).strokeWidth) >= 2);
  return {
    body: one === document.body || one === document.documentElement,
    // What is focused to be read on from, not to be pressed: headings and the page.
    read: one.tabIndex < 0,
    shows: lit(one) || lit(one, '::after') || lit(one, '::before') || lit(one.nextElementSibling) || drawn,
    inside: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    name: `${one.tagName.toLowerCase()}${one.type ? ` ${one.type}` : ''} "${(one.getAttribute('aria-label') ?? one.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 50)}"`
  };
};

await trial.run(async () => {
  const workshop = await trial.workshop('workshop');
  const context = await trial.person(workshop, { reducedMotion: 'reduce', acceptDownloads: true });
  const page = await trial.page(context);
  const press = (key) => page.keyboard.press(key);
  const dim = new Set();
  const look = async () => {
    const now = await page.evaluate(where);
    if (!now.body && !now.read && !now.shows && !dim.has(now.name)) {
      dim.add(now.name);
      trial.fault(`${trial.doing}: the focus cannot be seen on ${now.name}`);
    }
    if (!now.body && !now.read && !now.inside && !dim.has(`out ${now.name}`)) {
      dim.add(`out ${now.name}`);
      trial.fault(`${trial.doing}: the focus is out of sight on ${now.name}`);
    }
    return now;
  };
  // Tabs until the focus is there.
  const reach = async (target, key = 'Tab') => {
    await target.first().waitFor();
    for (let tabs = 0; tabs < most_tabs; tabs += 1) {
      if (await target.first().evaluate((one) => one === document.activeElement)) return tabs;
      await press(key);
      await look();
    }
    throw new Error(`not reached by ${key}: ${target}`);
  };
  // After an action has had its effect.
  const kept = async (after) => {
    await page.evaluate(() => new Promise((done) => setTimeout(() => requestAnimationFrame(done), 50)));
    const now = await look();
    if (now.body) trial.fault(`${trial.doing}: after ${after} the focus fell back to the body`);
  };
  const type = async (target, text) => {
    await reach(target);
    await press('Control+a');
    await page.keyboard.type(text);
    await press('Tab');
  };
  const field = (name) => page.getByRole('textbox', { name, exact: true });
  const on_heading = (name) => trial.until(`the focus is on the heading ${name}`, () =>
    page.getByRole('heading', { level: 1, name }).evaluate((one) => one === document.activeElement).catch(() => false));
  const station = (name) => reach(page.getByRole('navigation').getByRole('link', { name }), 'Shift+Tab');
  let build = '';
  const psu = async () => /^psu = "(.*)"$/m.exec(await workshop.text_of(build))[1];

  await trial.part('brief', async () => {
    await trial.step('the first Tab leads past the navigation', page, async () => {
      await page.goto('/');
      await page.getByRole('button', { name: 'Begin a brief' }).waitFor();
      await press('Tab');
      trial.must((await look()).name.includes('To the page'), `the first stop: ${(await look()).name}`);
      await press('Enter');
      await press('Tab');
      const now = await look();
      trial.must(!/^a "(Brief|Plan|Claims)"/.test(now.name), `after the skip: ${now.name}`);
    });
    await trial.step('begins a brief and writes it', page, async () => {
      await reach(page.getByRole('button', { name: 'Begin a brief' }));
      await press('Enter');
      await on_heading('A new brief');
      await type(field('name'), 'By keys');
      await kept('the name was written');
      await type(field('budget, IE'), '1200.00');
      await kept('the budget was written');
      await reach(page.getByRole('button', { name: 'Add a title' }));
      await press('Enter');
      await page.getByRole('combobox', { name: /^title, / }).waitFor();
      await kept('a title was added');
      await reach(page.getByRole('combobox', { name: /^title, / }), 'Shift+Tab');
      await page.keyboard.type('Gravel');
      await press('Tab');
      await trial.until('the title is kept', async () => /title = "gravel-nine"/.test(await workshop.text_of(new URL(page.url()).pathname.split('/')[2])));
      await kept('a title was chosen');
    });
    await trial.step('adds a limit and takes it out', page, async () => {
      await reach(page.getByRole('button', { name: 'Power drawn at the wall' }));
      await press('Space');
      await page.getByRole('group', { name: 'At the wall' }).waitFor();
      await kept('a limit was added');
      await reach(page.getByRole('button', { name: /^take out ?the limit on At the wall/ }), 'Shift+Tab');
      await press('Enter');
      await page.getByRole('group', { name: 'At the wall' }).waitFor({ state: 'detached' });
      await kept('a limit was taken out');
    });
  });

  await trial.part('plan', async () => {
    await trial.step('finds the best builds', page, async () => {
      await reach(page.getByRole('link', { name: 'Find the best builds' }));
      await press('Enter');
      await on_heading('Plan: By keys');
      await page.getByText(/^Proven: /).waitFor();
      await kept('the plan came');
    });
    await trial.step('moves the budget with the arrows', page, async () => {
      const budget = page.getByRole('slider', { name: 'Budget' });
      await reach(budget);
      const before = await budget.getAttribute('aria-valuenow');
      await press('ArrowRight');
      await trial.until('it moved', async () => (await budget.getAttribute('aria-valuenow')) !== before);
      await kept('the budget moved');
      await reach(page.getByRole('button', { name: /^back to / }));
      await press('Enter');
      await trial.until('it is back', async () => (await budget.getAttribute('aria-valuenow')) === before);
      await kept('the budget was put back');
    });
    await trial.step('opens the claims of the best', page, async () => {
      await reach(page.getByRole('button', { name: /^Open its claims/ }), 'Shift+Tab');
      await press('Enter');
      await on_heading(/^Claims of By keys: /);
      build = new URL(page.url()).pathname.split('/')[2];
    });
  });

  await trial.part('claims', async () => {
    trial.must(build, 'there is no build to go on with');
    const rows = page.getByRole('region', { name: 'Claims, nearest to failing first' }).getByRole('heading', { level: 3 }).getByRole('button');
    await trial.step('goes from claim to claim with the arrows, opens and closes one', page, async () => {
      await reach(rows);
      await press('ArrowDown');
      trial.same(await rows.nth(1).evaluate((one) => one === document.activeElement), true, 'the second claim has the focus');
      await press('Space');
      trial.same(await rows.nth(1).getAttribute('aria-expanded'), 'true', 'it is open');
      await kept('a claim was opened');
      await press('Enter');
      trial.same(await rows.nth(1).getAttribute('aria-expanded'), 'false', 'it is closed');
      await press('Home');
      trial.same(await rows.first().evaluate((one) => one === document.activeElement), true, 'the first claim has the focus');
    });
    await trial.step('takes another supply, tries a remedy, takes it back', page, async () => {
      const planned = await psu();
      await reach(page.getByRole('listitem').filter({ hasText: 'supply chamber' }).getByRole('button', { name: /^change / }));
      await press('Enter');
      const search = page.getByRole('searchbox', { name: /^Another supply/ });
      await reach(search);
      const smaller = planned === 'tollard-ration-400' ? '450' : '400';
      await page.keyboard.type(`ration ${smaller}`);
      await reach(page.getByRole('button', { name: `Tollard Ration ${smaller}`, exact: true }));
      await press('Enter');
      await trial.until('the supply is kept', async () => (await psu()) === `tollard-ration-${smaller}`);
      await page.getByRole('region', { name: 'What is different' }).waitFor();
      await kept('the supply was changed');
      await reach(page.getByRole('button', { name: 'Undo', exact: true }), 'Shift+Tab');
      await press('Enter');
      await trial.until('the planned supply is back', async () => (await psu()) === planned);
      await kept('it was taken back');
    });
  });

  await trial.part('case', async () => {
    trial.must(build, 'there is no build to go on with');
    await trial.step('chooses a clearance, turns the view', page, async () => {
      await station(/^Case/);
      await press('Enter');
      await on_heading(/^Case of By keys: /);
      await reach(page.locator('button[aria-pressed]').filter({ hasText: /./ }));
      await press('Enter');
      await page.getByRole('heading', { name: 'Its claim' }).waitFor();
      await kept('a clearance was chosen');
      const checked = page.locator('input[type="radio"]:checked').first();
      await reach(page.getByRole('radio', { name: 'side' }).or(page.getByRole('radio', { name: 'top' })).or(page.getByRole('radio', { name: 'front' })).and(checked), 'Shift+Tab');
      const before = page.url();
      await press('ArrowRight');
      await trial.until('the view turned', () => page.url() !== before);
      await kept('the view turned');
    });
  });

  await trial.part('air', async () => {
    trial.must(build, 'there is no build to go on with');
    await trial.step('moves the fans, keeps it, takes it back', page, async () => {
      await station(/^Air and power/);
      await press('Enter');
      await on_heading('Air and power');
      const before = await workshop.text_of(build);
      const slider = page.getByRole('slider', { name: "The case's fans" }).or(page.getByRole('slider', { name: "The cooler's fans" })).first();
      await reach(slider);
      await press('Home');
      await press('PageUp');
      await press('ArrowRight');
      await trial.until('the address carries it', () => /[?&](speed|cooler)=\d+/.test(page.url()));
      await kept('the fans were moved');
      await reach(page.getByRole('button', { name: 'Keep these speeds' }));
      await press('Enter');
      await trial.until('the build has them', async () => (await workshop.text_of(build)) !== before);
      await page.getByRole('button', { name: 'Undo', exact: true }).first().waitFor();
      await kept('the speeds were kept');
      await reach(page.getByRole('button', { name: 'Undo', exact: true }));
      await press('Enter');
      await trial.until('it is taken back', async () => (await workshop.text_of(build)) === before);
      await kept('it was taken back');
    });
  });

  await trial.part('parts', async () => {
    await trial.step('writes a cell with the arrows and Enter, takes it back', page, async () => {
      await page.goto('/parts/titles');
      const grid = page.getByRole('grid');
      await reach(grid.getByRole('gridcell').first());
      await press('ArrowRight');
      await press('F2');
      await press('End');
      await page.keyboard.type(' anew');
      await press('Enter');
      const name = grid.getByRole('row').nth(1).getByRole('gridcell').nth(1);
      await trial.until('it is written', async () => / anew$/.test((await name.innerText()).trim()));
      await kept('a cell was written');
      await page.getByText('Everything here is in the file.').or(page.getByText(/written|in the file/)).first().waitFor();
      const undo = page.getByRole('button', { name: 'Undo', exact: true });
      await trial.until('undo is offered', () => undo.isEnabled());
      await reach(undo, 'Shift+Tab');
      await press('Enter');
      await trial.until('it is taken back', async () => !/ anew/.test(await name.innerText()));
      await kept('it was taken back');
    });
    await trial.step('the table lets Tab out', page, async () => {
      await reach(page.getByRole('grid').locator('[role="gridcell"][tabindex="0"]'));
      await press('Tab');
      trial.same(await page.evaluate(() => document.activeElement.closest('[role="grid"]') === null), true, 'outside of the table');
    });
  });

  await trial.part('sheet', async () => {
    trial.must(build, 'there is no build to go on with');
    await trial.step('saves the parts', page, async () => {
      await page.goto(`/sheet/${build}`);
      await page.getByRole('heading', { name: 'Files to save' }).waitFor();
      await reach(page.getByRole('link', { name: 'Save parts.csv' }));
      const saved = page.waitForEvent('download');
      await press('Enter');
      trial.same((await saved).suggestedFilename(), 'parts.csv', 'the file');
      await kept('a file was saved');
    });
  });
});
