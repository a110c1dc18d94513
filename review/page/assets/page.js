// The table of all channels: search, filter, and a window of rows. Every text goes in as
// text, never as markup.
(() => {
  "use strict";
  const WINDOW = 100;
  const byId = (id) => document.getElementById(id);
  const data = JSON.parse(byId("channel-data").textContent);
  const body = byId("channel-table").tBodies[0];
  const form = byId("search"), status = byId("channel-status"), pager = byId("pager");
  const text = byId("search-text"), mode = byId("search-mode"), zone = byId("search-zone");
  const radio = byId("search-radio"), changed = byId("search-changed");
  const back = byId("pager-back"), on = byId("pager-on");
  const MODE = 3, CHANGE = 5, NUMBERS = [1, 2];
  const all = data.names.length;

  const value = (column, row) => data.columns[column].values[data.columns[column].of[row]];
  const held = (holding, row) => holding.sets[holding.of[row]];
  const named = (holding, row) => held(holding, row).map((i) => holding.names[i]).join(", ");

  // The text of a row that is searched, made at the first search.
  let haystack = null;
  const searchable = () => {
    haystack ??= data.names.map((name, row) =>
      [name, ...data.columns.map((_, c) => value(c, row)), named(data.zones, row)].join("\n").toLowerCase());
    return haystack;
  };

  const has = (holding, choice) => {
    if (choice === "") return () => true;
    const sets = holding.sets.map((set) => set.includes(Number(choice)));
    return (row) => sets[holding.of[row]];
  };

  const matching = () => {
    const words = text.value.toLowerCase().split(/\s+/).filter(Boolean);
    const hay = words.length ? searchable() : null;
    const inZone = has(data.zones, zone.value), inRadio = has(data.radios, radio.value);
    const rows = [];
    for (let row = 0; row < all; row++) {
      if (mode.value && value(MODE, row) !== mode.value) continue;
      if (changed?.checked && value(CHANGE, row) === "") continue;
      if (!inZone(row) || !inRadio(row)) continue;
      if (hay && !words.every((word) => hay[row].includes(word))) continue;
      rows.push(row);
    }
    return rows;
  };

  const cell = (tag, content, number) => {
    const el = document.createElement(tag);
    el.textContent = content;
    if (number) el.className = "num";
    return el;
  };

  const line = (row) => {
    const tr = document.createElement("tr");
    const head = cell("th", data.names[row]);
    head.scope = "row";
    tr.append(head);
    data.columns.forEach((_, c) => tr.append(cell("td", value(c, row), NUMBERS.includes(c))));
    tr.append(cell("td", named(data.zones, row)), cell("td", named(data.radios, row)));
    return tr;
  };

  let rows = [], from = 0;
  const show = (most) => {
    const to = Math.min(from + most, rows.length);
    body.replaceChildren(...rows.slice(from, to).map(line));
    const of = rows.length === all ? "" : ` that match, of ${all}`;
    status.textContent = rows.length === 0 ? `No channel matches, of ${all}.`
      : `Channels ${from + 1} to ${to} of ${rows.length}${of}.`;
    pager.hidden = rows.length <= WINDOW;
    back.disabled = from === 0;
    on.disabled = to === rows.length;
  };

  const search = () => { rows = matching(); from = 0; show(WINDOW); };
  const page = (by) => { from += by * WINDOW; show(WINDOW); byId("channels").scrollIntoView(); };

  const option = (select, label, choice) => {
    const el = document.createElement("option");
    el.textContent = label;
    el.value = choice;
    select.append(el);
  };
  data.columns[MODE].values.forEach((name) => option(mode, name, name));
  data.zones.names.map((name, i) => [name, i]).sort((a, b) => (a[0] < b[0] ? -1 : 1)).forEach(([name, i]) => option(zone, name, i));
  data.radios.names.forEach((name, i) => option(radio, name, i));

  let waiting = 0;
  const later = () => { clearTimeout(waiting); waiting = setTimeout(search, 120); };
  form.addEventListener("input", later);
  form.addEventListener("reset", () => setTimeout(search));
  form.addEventListener("submit", (event) => { event.preventDefault(); search(); });
  back.addEventListener("click", () => page(-1));
  on.addEventListener("click", () => page(1));

  // Paper has no pager: print what is chosen, up to as many rows as one would want on paper.
  let kept = 0;
  addEventListener("beforeprint", () => { kept = from; from = 0; show(2000); });
  addEventListener("afterprint", () => { from = kept; show(WINDOW); });

  form.hidden = false;
  search();
})();
