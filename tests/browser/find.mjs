// With only the saved file: which handle, what else goes off, is it on backup, what to switch off before work; and a search that forgives.

export async function scenario(t) {
  const file = t.handOver(t.sample('home.house', true));
  const page = await t.phone({ offline: true });
  await page.goto('file://' + file);

  const first = async (words, wanted) => {
    await t.open(page, 'find', '#q');
    await page.fill('#q', words);
    await page.waitForTimeout(150);
    t.equal((await t.texts(page, '.hits li .grow'))[0], wanted, `the search for "${words}"`);
  };
  await first('dish washer', 'Kitchen dishwasher');
  await first('dishwahser', 'Kitchen dishwasher');
  await first('FRIDGE', 'Kitchen refrigerator');
  await first('freezers', 'Storage freezer');
  await first('garage oppener', 'garage opener');
  await first('k\u00eftchen r\u00e4nge', 'Kitchen range');
  await first('16b', 'Main panel breaker 16b');
  await first('oxygen', 'NE bedroom receptacle 4');
  await first('which handle for the dish washer', 'Kitchen dishwasher');
  await first('is the freezer on backup', 'Storage freezer');
  await first('what do I switch off before I change the kitchen ceiling light', 'Kitchen ceiling light 1');
  await page.fill('#q', 'zeppelin');
  await page.waitForTimeout(150);
  t.equal((await t.texts(page, '.hits li')).length, 0, 'what is not there');
  t.check((await page.textContent('.count')).includes('zeppelin'), 'the search says what it did not find');

  const card = async words => {
    await first(words, { 'dish washer': 'Kitchen dishwasher', freezer: 'Storage freezer', 'kitchen ceiling light': 'Kitchen ceiling light 1' }[words]);
    await page.click('.hits li a');
    await page.waitForSelector('.plate');
    return (await page.textContent('#view')).replace(/\s+/g, ' ');
  };
  const dishes = await card('dish washer');
  t.check(dishes.includes('Main panel breaker 9') && dishes.includes('disposal') && dishes.includes('Not on backup'), 'the card of the dishwasher: ' + dishes.slice(0, 300));
  t.check((await card('freezer')).includes('On backup'), 'the freezer is on backup');
  await t.picture(page, 'freezer');
  const lamp = await card('kitchen ceiling light');
  t.check(lamp.includes('open Transfer position 4 breaker and Main panel breaker 19'), 'before work on the lamp: ' + lamp.slice(0, 600));
  await page.goBack();
  t.equal(await page.inputValue('#q'), 'kitchen ceiling light', 'back keeps what was searched for');
}
