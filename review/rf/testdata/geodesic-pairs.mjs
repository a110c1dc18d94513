// Makes geodesic-pairs.csv: node geodesic-pairs.mjs > geodesic-pairs.csv, in a folder where the
// npm package geographiclib-geodesic 2.2.0 is installed. The pairs come from a fixed
// generator, so the same version makes the same file.
import { createRequire } from "node:module";
const require = createRequire(process.cwd() + "/");
const { Geodesic } = require("geographiclib-geodesic").default ?? require("geographiclib-geodesic");
const version = require("geographiclib-geodesic/package.json").version;

let state = 20261125;
function random() { // mulberry32
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const micro = (x) => Math.round(x * 1e6) / 1e6;
const wrap = (lon) => micro(lon > 180 ? lon - 360 : lon < -180 ? lon + 360 : lon);
const clamp = (lat) => micro(Math.max(-90, Math.min(90, lat)));
const latitude = () => micro((Math.asin(2 * random() - 1) * 180) / Math.PI);
const longitude = () => micro(360 * random() - 180);

const pairs = [];
const add = (kind, ...pair) => pairs.push([kind, ...pair]);
for (let i = 0; i < 200; i++) add("anywhere", latitude(), longitude(), latitude(), longitude());
for (let i = 0; i < 200; i++) { // as repeaters lie
  const lat = micro(130 * random() - 65), lon = longitude(), reach = 4 * random();
  add("region", lat, lon, clamp(lat + reach * (random() - 0.5)), wrap(lon + reach * (random() - 0.5)));
}
for (let i = 0; i < 60; i++) { // on one hill: from 0.1 m up
  const lat = latitude(), lon = longitude(), reach = 10 ** (-6 + 4 * random());
  add("hill", lat, lon, clamp(lat + reach * (random() - 0.5)), wrap(lon + reach * (random() - 0.5)));
}
for (let i = 0; i < 80; i++) {
  const lat = micro(160 * random() - 80), lon = longitude(), off = 10 ** (-4 + 4 * random());
  add("antipodal", lat, lon, clamp(-lat + off * (random() - 0.5)), wrap(lon + 180 + off * (random() - 0.5)));
}
for (let i = 0; i < 20; i++) {
  const lat = latitude(), lon = longitude();
  add("parallel", lat, lon, lat, wrap(lon + 170 * random()));
  add("meridian", lat, lon, latitude(), lon);
  add("over the pole", lat, lon, latitude(), wrap(lon + 180));
  add("equator", 0, lon, 0, wrap(lon + 360 * random() - 180));
}
for (let i = 0; i < 40; i++) { // where an azimuth counted from north runs out of digits
  const lat = micro(2e-5 * (random() - 0.5)), lon = longitude();
  add("hill at the equator", lat, lon, random() < 0.5 ? lat : micro(2e-5 * (random() - 0.5)), wrap(lon + 1e-5 * random()));
}
for (const at of [90, -90]) for (let i = 0; i < 5; i++) add("pole", at, 0, latitude(), longitude());
for (let i = 0; i < 10; i++) add("near the pole", micro(90 - 0.001 * random()), longitude(), micro(90 - 0.001 * random()), longitude());
add("pole to pole", -90, 0, 90, 0);
add("exact antipodes", 0, 0, 0, 180);
add("exact antipodes", 30, 10, -30, -170);

console.log(`# npm geographiclib-geodesic ${version} (C. F. F. Karney, MIT), WGS 84; made by geodesic-pairs.mjs`);
console.log("kind,lat1,lon1,lat2,lon2,s12_m,azi1,azi2");
for (const [kind, lat1, lon1, lat2, lon2] of pairs) {
  const r = Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2);
  console.log([kind, lat1, lon1, lat2, lon2, r.s12.toFixed(9), r.azi1.toFixed(12), r.azi2.toFixed(12)].join(","));
}
