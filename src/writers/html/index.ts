import type { Drawing } from '../../drawing/types.ts';
import { svgElement } from '../svg/write.ts';
import { escapeXml } from '../svg/xml.ts';
import { cautionList, htmlDocument, paragraphs } from './document.ts';

export interface IndexLink {
  /** Relative path of a file beside the page. */
  readonly href: string;
  readonly label: string;
}

export interface IndexStep {
  readonly heading: string;
  /** Paragraphs are parted by an empty line. */
  readonly text: string;
  readonly links: readonly IndexLink[];
}

export interface IndexInput {
  readonly title: string;
  /** For the head of the page. */
  readonly text: string;
  readonly cautions: readonly string[];
  /** In the order in which to take them. */
  readonly steps: readonly IndexStep[];
  /** Shown at the head of the page, or null. */
  readonly picture: Drawing | null;
}

/** The page to open first: what to do in which order, and the files for it. Loads nothing, runs no script. */
export function writeIndexPage(input: IndexInput): string {
  const picture = input.picture === null ? '' : pictureOf(input.picture);
  const body = [
    `<header><div><p class="doc">Start here</p><h1><bdi>${escapeXml(input.title)}</bdi></h1></div></header>`,
    '<main><div class="page"><div class="inner">',
    picture,
    paragraphs(input.text),
    cautionList(input.cautions),
    `<ol class="path">\n${input.steps.map(stepItem).join('\n')}\n</ol>`,
    '</div></div></main>',
  ].join('\n');
  return htmlDocument(input.title, body);
}

/** A drawing without its notes: the page around it says more. */
function pictureOf(drawing: Drawing): string {
  const layers = drawing.layers.filter((layer) => layer.name !== 'NOTES');
  return `<div class="picture">${svgElement({ ...drawing, layers }, 'fitted')}</div>`;
}

function stepItem({ heading, text, links }: IndexStep): string {
  const items = links.map(
    ({ href, label }) => `<li><a href="${relativeHref(href)}">${escapeXml(label)}</a></li>`,
  );
  const list = items.length === 0 ? '' : `<ul>${items.join('')}</ul>`;
  return `<li><h2>${escapeXml(heading)}</h2>${paragraphs(text)}${list}</li>`;
}

/** Every part of the path is encoded, so that no name can become another scheme or host. */
function relativeHref(href: string): string {
  const [path = '', mark] = href.split('#', 2);
  const encoded = path.split('/').map(encodeURIComponent).join('/');
  const fragment = mark === undefined ? '' : `#${encodeURIComponent(mark)}`;
  return escapeXml(`./${encoded}${fragment}`);
}
