// Tries the gallery's pieces as a person with keyboard and pointer does, and says what does not follow.

export async function try_by_hand(open, parts, found) {
  let tried = 0
  const expect = (what, is, wanted) => {
    tried += 1
    if (JSON.stringify(is) !== JSON.stringify(wanted)) found(`${what}: ${JSON.stringify(is)}, not ${JSON.stringify(wanted)}`)
  }
  const hands = { claims, charts, case: chassis, shell }
  for (const part of parts) {
    const page = await open(part, 'light', 1280)
    await hands[part]?.(page, expect)
    await page.close()
  }
  return tried
}

const focused = (page) => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '')

async function claims(page, expect) {
  const buttons = page.locator('.rows button[aria-expanded]')
  await buttons.nth(0).focus()
  await page.keyboard.press('ArrowDown')
  expect('arrow down goes to the second claim', await focused(page), await buttons.nth(1).innerText())
  await page.keyboard.press('End')
  expect('End goes to the fold', (await focused(page)).includes('with more than 25 %'), true)
  const visible = page.locator('.rows button[aria-expanded]:visible')
  const before = await visible.count()
  await page.keyboard.press('Enter')
  expect('the fold opens to more', (await visible.count()) > before, true)
  expect('it says that it is open', await page.evaluate(() => document.activeElement?.getAttribute('aria-expanded')), 'true')
  await page.keyboard.press('Home')
  await page.keyboard.press('Enter')
  expect('a claim opens to its working', await page.locator('.working:visible').first().innerText().then((t) => t.includes('It holds in 0.16 of the draws')), true)
  await page.evaluate(() => scrollTo(0, 0))
  await page.locator('.rows button[aria-expanded="true"]').first().click()
  expect('a click closes it', await page.locator('.rows button[aria-expanded]').first().getAttribute('aria-expanded'), 'false')
}

async function charts(page, expect) {
  const slider = page.getByRole('slider', { name: 'Budget' })
  const value = async () => Number(await slider.getAttribute('aria-valuenow'))
  await slider.focus()
  expect('the budget begins at', await value(), 1300)
  await page.keyboard.press('ArrowRight')
  expect('an arrow moves it by round money', await value(), 1320)
  await page.keyboard.press('PageUp')
  expect('page up goes to the next step', await value(), 1366.2)
  await page.keyboard.press('Home')
  expect('Home goes to the least', await value(), 700)
  expect('and says that nothing is to be had', (await slider.getAttribute('aria-valuetext')).includes('there is no build'), true)
  const box = await page.locator('svg:has([role=slider])').boundingBox()
  await page.mouse.move(box.x + box.width / 2, box.y + 120)
  await page.mouse.down()
  await page.mouse.move(box.x + box.width / 2 + 100, box.y + 120, { steps: 4 })
  const dragged = await value()
  await page.mouse.up()
  await page.mouse.move(box.x + box.width / 2 - 100, box.y + 120)
  expect('dragging moves it', dragged > 1500 && dragged < 2200, true)
  expect('and it stays where it is let go', await value(), dragged)
}

async function chassis(page, expect) {
  const pressed = (name) => page.locator('ol button', { hasText: name }).first().getAttribute('aria-pressed')
  const view = () => page.locator('fieldset').first().locator('input:checked + span').innerText()
  await page.locator('ol button', { hasText: 'cooler height' }).first().click()
  expect('a clearance is chosen from the list', await pressed('cooler height'), 'true')
  expect('and the drawing turns to where it lies', await view().then((text) => text.startsWith('Front')), true)
  expect('and so does the model', await page.getByRole('application').getAttribute('aria-label').then((t) => t.includes('nearest to the front view')), true)
  await page.locator('fieldset').first().locator('label', { hasText: 'Top' }).click()
  expect('the model turns with the drawing', await page.getByRole('application').getAttribute('aria-label').then((t) => t.includes('nearest to the top view')), true)
  await page.getByRole('application').focus()
  for (let i = 0; i < 6; i += 1) await page.keyboard.press('ArrowDown')
  expect('arrows turn the model', await page.getByRole('application').getAttribute('aria-label').then((t) => t.includes('nearest to the side view')), true)
  expect('and the drawing says so', await page.locator('fieldset').first().locator('small').innerText().then((text) => text.trim()), '(model nearest)')
  const turned = await page.locator('canvas').screenshot()
  await page.keyboard.press('ArrowRight')
  await page.waitForTimeout(150)
  expect('another side of it is seen', turned.equals(await page.locator('canvas').screenshot()), false)
  await page.locator('fieldset').first().locator('label', { hasText: 'Side' }).click()
  await page.locator('svg .gap').nth(0).click({ force: true })
  expect('a clearance is chosen in the drawing', (await page.locator('svg .gap[aria-pressed=true]').count()) > 0, true)
}

async function shell(page, expect) {
  const at = () => page.evaluate(() => {
    const cell = document.activeElement?.closest('[data-row]')
    return cell ? `${cell.dataset.row},${cell.dataset.column}` : ''
  })
  const text = (row, column) => page.locator(`[data-row="${row}"][data-column="${column}"]`).innerText()
  await page.locator('[data-row="2"][data-column="1"]').click()
  expect('a click goes to the cell', await at(), '2,1')
  await page.keyboard.type('333')
  await page.keyboard.press('Enter')
  expect('typing writes into it', await text(2, 1), '333')
  expect('and Enter goes down', await at(), '3,1')
  await page.keyboard.press('F2')
  await page.keyboard.type('9')
  await page.keyboard.press('Escape')
  expect('Escape leaves it as it was', await text(3, 1), '203')
  expect('and stays there', await at(), '3,1')
  await page.keyboard.press('Enter')
  await page.keyboard.type('x')
  await page.keyboard.press('Tab')
  expect('Tab goes on while editing', await at(), '3,2')
  expect('a wrong cell says so', await page.locator('[data-row="3"][data-column="1"]').getAttribute('aria-invalid'), 'true')
  await page.keyboard.press('ArrowLeft')
  expect('and why', await page.locator('.grid-of .problem').innerText(), 'length_mm, line 4: expected a number in mm')
  await page.keyboard.press('Control+End')
  expect('to the last of 100,000 rows', await at(), '99999,5')
  expect('few rows are drawn', (await page.locator('.body [role=row]').count()) < 60, true)
  await page.keyboard.press('Control+Home')
  expect('and back', await at(), '0,0')
  const paste = (block) => page.evaluate((block) => {
    const data = new DataTransfer()
    data.setData('text/plain', block)
    document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))
  }, block)
  await paste('a\t1\nb\t2\n')
  expect('a block is pasted', [await text(0, 0), await text(0, 1), await text(1, 0), await text(1, 1)], ['a', '1', 'b', '2'])
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Shift+ArrowRight')
  const copied = await page.evaluate(() => {
    const data = new DataTransfer()
    document.activeElement.dispatchEvent(new ClipboardEvent('copy', { clipboardData: data, bubbles: true, cancelable: true }))
    return data.getData('text/plain')
  })
  expect('and copied', copied, 'a\t1\nb\t2')
  await page.keyboard.press('Delete')
  expect('a range is emptied', [await text(0, 0), await text(1, 1)], ['', ''])
  await page.getByRole('button', { name: 'Undo' }).click()
  expect('and that undone', await text(1, 1), '2')

  const button = page.locator('#tour-button')
  await button.click()
  await page.waitForTimeout(100)
  expect('the tour begins at its first step', await focused(page), 'The job line')
  await page.keyboard.press('ArrowRight')
  await page.waitForTimeout(100)
  expect('and goes on', await focused(page), 'The table')
  await page.keyboard.press('Escape')
  await page.waitForTimeout(100)
  expect('and gives the focus back', await page.evaluate(() => document.activeElement?.id), 'tour-button')
  await page.locator('label', { hasText: 'dark' }).click()
  expect('the paper is chosen', await page.evaluate(() => document.documentElement.dataset.theme), 'dark')
  await page.reload()
  await page.waitForSelector('h1')
  expect('and stays chosen', await page.evaluate(() => document.documentElement.dataset.theme), 'dark')
}
