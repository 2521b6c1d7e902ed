// The phone page in a headless browser: nothing is fetched, ticks survive a reload, targets and contrast hold, 320 px are enough,
// the keyboard is enough, and what is copied is written to a file that `receive` can book.
//
//   .ci/run                         (installs what it needs and runs it by way of tests/browser.rs), or by hand:
//   npm install --no-save --prefix target/browser playwright-core@1.54.1
//   SPENCE_BROWSER=/usr/bin/chromium cargo test --test tests browser
//
// Given a folder of kitchens in place of a page, it opens the page of each: every name is text and does nothing; what is ticked is copied.
//
// Targets: at least 44 by 44 CSS px. Contrast: WCAG 2.2, 1.4.3, at least 4.5 to 1 for text.

import { mkdtempSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const { chromium } = createRequire(resolve("target/browser/here.js"))("playwright-core");

const [file, goods] = process.argv.slice(2);
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
const wrong = [];
const hold = (what, is) => { console.log(is ? "holds " : "WRONG ", what); if (!is) wrong.push(what); };

const open = async (scheme, file) => {
  const url = pathToFileURL(resolve(file)).href;
  const context = await chromium.launchPersistentContext(mkdtempSync(join(tmpdir(), "phone-")), {
    executablePath: process.env.SPENCE_BROWSER || "/usr/bin/chromium", args: flags, viewport: { width: 320, height: 640 }, colorScheme: scheme,
  });
  const page = context.pages()[0] || await context.newPage();
  const asked = [], errors = [];
  page.on("request", request => asked.push(request.url()));
  page.on("console", message => { if (message.type() === "error") errors.push(message.text()); });
  page.on("pageerror", error => errors.push(String(error)));
  page.on("dialog", dialog => { errors.push("dialog: " + dialog.message()); dialog.dismiss(); });
  await page.goto(url);
  return { context, page, asked, errors, url };
};

// In the page: every text's contrast with what is behind it, and every target's size.
const look = () => {
  const parts = text => text.match(/[\d.]+/g).map(Number);
  const bright = ([r, g, b]) => [r, g, b].map(c => c / 255).map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  const behind = element => {
    for (let at = element; at; at = at.parentElement) { const colour = parts(getComputedStyle(at).backgroundColor); if (colour.length < 4 || colour[3] > 0) return colour; }
    return [255, 255, 255];
  };
  const poor = [], small = [];
  for (const element of document.querySelectorAll("body *")) {
    const own = [...element.childNodes].some(node => node.nodeType === 3 && node.textContent.trim());
    const box = element.getBoundingClientRect();
    if (own && box.width && !["SCRIPT", "STYLE"].includes(element.tagName)) {
      const [a, b] = [bright(parts(getComputedStyle(element).color)), bright(behind(element))].sort((x, y) => y - x);
      if ((a + 0.05) / (b + 0.05) < 4.5) poor.push(element.outerHTML.slice(0, 80));
    }
    if (box.width && element.matches("a,button,summary,input,textarea,select") && (box.width < 44 || box.height < 44)) small.push(element.outerHTML.slice(0, 80) + box.width + "x" + box.height);
  }
  return { poor, small, wide: document.documentElement.scrollWidth > innerWidth };
};

const looks = async () => {
  for (const scheme of ["light", "dark"]) {
    const { context, page, asked, errors, url } = await open(scheme, file);
    await page.locator(".line summary").first().click();
    await page.locator(".other input[value=other]").first().check();
    const { poor, small, wide } = await page.evaluate(look);
    hold(`${scheme}: contrast ${poor.join(" ")}`, poor.length === 0);
    hold(`${scheme}: targets ${small.join(" ")}`, small.length === 0);
    hold(`${scheme}: 320 px are enough`, !wide);
    hold(`${scheme}: nothing but the file is asked for`, asked.every(one => one === url));
    hold(`${scheme}: no error ${errors.join(" ")}`, errors.length === 0);
    await page.screenshot({ path: join(dirname(resolve(file)), `phone-${scheme}.png`) });
    await context.close();
  }
};

const works = async () => {
  const { context, page, errors } = await open("light", file);
  const ticks = page.locator(".trip").first().locator(".line .tick input");
  const count = await ticks.count();
  await ticks.first().focus();
  await page.keyboard.press("Space");
  hold("the keyboard ticks a line", await ticks.first().isChecked());
  for (let index = 1; index < count; index += 1) await ticks.nth(index).check();
  await page.reload();
  hold("ticks survive a reload", await page.locator(".trip").first().locator(".line .tick input:checked").count() === count);
  const sum = await page.locator(".trip .sum").first().textContent();
  console.log(sum);
  hold("the cost of what is ticked is told", /Ticked so far: \d+\.\d\d /.test(sum) && sum.includes("Nothing is left"));
  await page.locator("#hide").click();
  hold("what is ticked is hidden", !(await ticks.first().isVisible()));
  await page.locator("#hide").click();

  await page.evaluate(() => { Object.defineProperty(navigator, "clipboard", { value: { writeText: () => Promise.reject(new Error("refused")) } }); });
  await page.locator(".copy").first().click();
  const area = page.locator(".trip textarea").first();
  hold("where copying is refused the text stands selected", await area.isVisible() && await area.evaluate(field => field === document.activeElement && field.selectionEnd === field.value.length));
  const text = await area.inputValue();
  console.log(await page.locator(".said").first().textContent());
  if (goods) writeFileSync(goods, text);
  await page.locator(".copy").first().click();
  hold("nothing is copied twice unasked", (await page.locator(".said").first().textContent()).startsWith("Nothing more"));

  const session = page.locator(".session").first();
  const before = await session.locator("time").first().textContent();
  await session.locator("[data-shift='10']").click();
  const minutes = clock => { const [h, m] = clock.split(":").map(Number); return h * 60 + m; };
  hold("everything shifts by 10 min", minutes(await session.locator("time").first().textContent()) - minutes(before) === 10);
  await session.locator(".step input").first().check();
  const second = await session.locator(".text").nth(1).textContent();
  hold("the first that is not ticked is next", (await session.locator(".next").textContent()).endsWith(second));
  await page.clock.install();
  await page.reload();
  const timer = page.locator(".timer").first();
  await timer.locator("button").click();
  await page.clock.fastForward(10 * 3600 * 1000);
  await page.clock.runFor(2000);
  hold("a timer says what to do when it ends", (await timer.locator("p").textContent()).startsWith("Time is up."));
  console.log(await timer.locator("p").textContent());
  hold(`no error ${errors.join(" ")}`, errors.length === 0);
  await page.setViewportSize({ width: 1100, height: 900 });
  await page.screenshot({ path: join(dirname(resolve(file)), "phone-wide.png") });
  await context.close();
};

// Every kitchen of the folder: its page, the name that stands in it everywhere, and where what is copied goes.
const names = async folder => {
  for (const kitchen of readdirSync(folder).sort()) {
    const [name, page_file] = [readFileSync(join(folder, kitchen, "name"), "utf8"), join(folder, kitchen, "sheets/list-2026-11-30.html")];
    const { context, page, asked, errors, url } = await open("light", page_file);
    const found = await page.evaluate(() => ({
      strange: document.querySelectorAll("img,svg,iframe,object,embed,link,base,a:not([href^='#'])").length, scripts: document.scripts.length,
      handlers: [...document.querySelectorAll("*")].filter(one => [...one.attributes].some(part => part.name.startsWith("on"))).length,
      bad: window.bad, wide: document.documentElement.scrollWidth > innerWidth,
      said: ["h1", "h3", "h4", ".line b", ".step .text", "#week"].map(where => [...document.querySelectorAll(where)].map(one => one.textContent).join("\n")),
    }));
    const shown = found.said.every(text => text.includes(name));
    for (const line of await page.locator(".line .tick input").all()) await line.check();
    await page.locator(".copy").first().click();
    writeFileSync(join(folder, kitchen, "goods.toml"), await page.locator(".trip textarea").first().inputValue());
    const still = !found.strange && !found.handlers && found.scripts === 1 && found.bad === undefined && errors.length === 0 && asked.every(one => one === url);
    hold(`${kitchen}: ${JSON.stringify(name)} is text ${shown && still && !found.wide ? "" : JSON.stringify({ ...found, errors })}`, shown && still && !found.wide);
    await context.close();
  }
};

if (statSync(file).isDirectory()) await names(file); else { await looks(); await works(); }
process.exit(wrong.length ? 1 : 0);
