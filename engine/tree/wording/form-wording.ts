import { COMPONENT_NAMES } from '../components.ts';
import type { ProblemData } from '../tree-problem.ts';
import { badAttributeWords } from './attribute-wording.ts';
import { cut, either, orOneOf, type Words } from './words.ts';

type Of<C extends ProblemData['code']> = Extract<ProblemData, { code: C }>;

export const FORM_WORDING = {
  'not-readable': notReadable,
  'unknown-component': ({ name, suggestion }: Of<'unknown-component'>): Words => ({
    message: name === '' ? 'There is a tag without a name here.' : `“${cut(name)}” is not a component of the language.`,
    fix:
      suggestion !== undefined
        ? `Did you mean <${suggestion}>?`
        : `The components are ${either(COMPONENT_NAMES)}. Where you want the sign < itself, write \\<.`,
  }),
  'misplaced-component': misplaced,
  'unknown-attribute': ({ owner, name, known, suggestion }: Of<'unknown-attribute'>): Words => ({
    message: `${upper(owner)} has no “${cut(name)}”.`,
    fix:
      suggestion !== undefined
        ? `Did you mean “${suggestion}”?`
        : known.length === 0
          ? 'It takes none: take it out.'
          : `It may have ${either(known)}.`,
  }),
  'bad-attribute': badAttributeWords,
  'code-in-prose': codeInProse,
  'not-kept': notKept,
  'comment-not-kept': ({ what, text }: Of<'comment-not-kept'>): Words =>
    what === 'front-matter'
      ? { message: `The comment “${cut(text)}” is lost when this tree is saved from the desk.`, fix: 'Say it in the opening, or take it out.' }
      : {
          message: `The word “${cut(text)}” after the code fence is lost when this tree is saved from the desk.`,
          fix: 'Leave the fence bare: code is shown as it stands.',
        },
  'bad-heading': badHeading,
  'no-task': ({ title }: Of<'no-task'>): Words => ({
    message: `“${cut(title)}” does not say what the tech does there.`,
    fix: 'Under a ## heading put one of <Reading>, <Look>, <Act>, <Ask>, <Finding> or <Handoff>. A heading that is no step takes ###.',
  }),
  'bad-way': badWay,
  'duplicate-step': ({ id, title, firstLine }: Of<'duplicate-step'>): Words => ({
    message: `Two steps have the id “${id}”; the other one is on line ${firstLine}.`,
    fix: `Change one of the headings (“${cut(title)}”), or give one of them an id of its own: id="${id}-2".`,
  }),
  'no-start': (_: Of<'no-start'>): Words => ({
    message: 'This tree has no steps, so a walk has nowhere to start.',
    fix: 'Write the first step: a ## heading, a component such as <Reading> under it, and a <Next> with the ways on.',
  }),
};

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const FRONT_MATTER_FAULTS: Readonly<Record<string, Words>> = {
  twice: { message: 'A key stands twice in the front matter.', fix: 'Keep one of the two.' },
  tab: { message: 'A tab stands where the front matter needs spaces.', fix: 'Indent with two spaces.' },
  indent: { message: 'A line of the front matter is indented to no level that is open.', fix: 'Line it up with the line that it belongs with.' },
  'not-closed': { message: 'A quote, bracket or brace of the front matter is not closed.', fix: 'Close it, or put the whole text in quotes.' },
  other: {
    message: 'The front matter cannot be read from here on.',
    fix: 'Write a line for each key, such as “title: No heat”. Text with a colon or a bracket in it goes in quotes.',
  },
};

function notReadable(data: Of<'not-readable'>): Words {
  switch (data.what) {
    case 'too-large':
      return {
        message: `The file has ${data.size} characters; a tree may have ${data.most}.`,
        fix: 'Split the tree: a way on may lead to another tree.',
      };
    case 'characters':
      return {
        message: `There ${data.count === 1 ? 'is a character' : `are ${data.count} characters`} here that no text should have (the first is ${data.shown}).`,
        fix: 'Save the file as plain text in UTF-8. If it came from a document or a picture, copy the words into a new file.',
      };
    case 'nested':
      return { message: 'Lists, quotations or brackets stand inside each other too deeply here.', fix: 'Write it flat: two levels are enough.' };
    case 'tangled':
      return {
        message: 'A component begins inside a link, a heading or an emphasis here and does not end in it.',
        fix: 'Close each component and each bracket before the next begins.',
      };
    case 'block-too-long':
      return { message: 'This block goes on too long without an empty line.', fix: 'Put an empty line between paragraphs, and say less on a step.' };
    case 'no-front-matter':
      return {
        message: 'The file does not begin with front matter.',
        fix: 'Begin with a line of three dashes, then title: and complaint:, then three dashes again.',
      };
    case 'front-matter-open':
      return { message: 'The front matter is not closed.', fix: 'Put a line of three dashes after its last key.' };
    case 'front-matter-list':
      return { message: 'The front matter is not a list of keys.', fix: 'Write a line for each key, such as “title: No heat”.' };
    case 'front-matter':
      return FRONT_MATTER_FAULTS[data.detail] ?? { message: 'The front matter cannot be read.', fix: 'Write a line for each key.' };
    case 'tag':
      return {
        message: `The tag “${cut(data.text)}” cannot be read.`,
        fix: 'Write it as <Reading takes="ac-voltage" across="R to C" />: every value in double quotes, and /> at the end.',
      };
    case 'not-closed':
      return {
        message: `<${cut(data.name)}> is opened here and not closed.`,
        fix: `Write </${cut(data.name)}> after it, on a line of its own, in the same section.`,
      };
    case 'stray-closing':
      return { message: `</${cut(data.name)}> closes nothing.`, fix: `Take it out, or open <${cut(data.name)}> before it.` };
    case 'closed-by-other':
      return {
        message: `</${cut(data.found)}> stands where <${cut(data.name)}> is still open.`,
        fix: `Close <${cut(data.name)}> first, with </${cut(data.name)}>.`,
      };
  }
}

function misplaced({ name, why }: Of<'misplaced-component'>): Words {
  switch (why) {
    case 'in-opening':
      return {
        message: `<${name}> stands in the opening, before the first step.`,
        fix: 'Move it under a ## heading. The opening holds prose and cautions.',
      };
    case 'in-text':
      return { message: `<${name}> stands in the middle of a text.`, fix: 'Put it on a line of its own with an empty line before and after.' };
    case 'inside-component':
      return { message: `<${name}> stands inside another component.`, fix: 'Move it out, to stand by itself in the section.' };
    case 'in-list':
      return { message: `<${name}> stands inside a list or a quotation.`, fix: 'Move it out, to a line of its own that is not indented.' };
    case 'second-task':
      return {
        message: `A second component, <${name}>, says what to do on this step.`,
        fix: 'A step is one thing to do. Give this one a ## heading of its own.',
      };
    case 'second-next':
      return { message: 'This step has a second <Next>.', fix: 'Put all its ways on in one list.' };
    case 'next-on-end':
      return { message: 'A finding or handoff ends the walk: it has no ways on.', fix: 'Take <Next> out.' };
    case 'second-repair':
      return { message: 'This finding has a second <Repair>.', fix: 'Put the whole repair in one.' };
    case 'repair-outside-finding':
      return { message: '<Repair> stands on a step that is not a finding.', fix: 'Move it to the step with <Finding>, or make it an <Act>.' };
  }
}

function codeInProse({ what, text }: Of<'code-in-prose'>): Words {
  switch (what) {
    case 'expression':
      return { message: `“${cut(text)}” is program code. A tree holds none.`, fix: 'Write what it should say. For a brace as a sign, write \\{.' };
    case 'brace':
      return { message: 'A brace “{” starts program code, and nothing closes it.', fix: 'For a brace as a sign, write \\{.' };
    case 'angle':
      return {
        message: `“${cut(text)}” reads as the start of a component.`,
        fix: 'Write the word (“below 5 V”), or \\< for the sign. A web address goes in a link: [text](https://…).',
      };
    case 'comment':
      return { message: `“${cut(text)}” is a hidden comment, and is not kept.`, fix: 'Say it where the tech can read it, or take it out.' };
    case 'import':
      return {
        message: `A paragraph that begins with “${text}” is read as program code.`,
        fix: 'Take the code out, or begin the sentence with another word.',
      };
    case 'script':
      return { message: 'There is a script here. A tree holds no code.', fix: 'Take it out.' };
    case 'spread':
      return { message: `“{${cut(text)}}” is program code in a component.`, fix: 'Write each attribute out: takes="ac-voltage".' };
    case 'attribute':
      return {
        message: `“${cut(text)}” is program code. Attributes are plain text.`,
        fix: 'Write the value in double quotes. Only a number may stand in braces: minutes={2}.',
      };
  }
}

function notKept({ what, text }: Of<'not-kept'>): Words {
  const shown = cut(text);
  switch (what) {
    case 'definition':
      return {
        message: `“${shown}” gives an address for links elsewhere, and cannot be kept.`,
        fix: 'Write the address in the link itself: [text](https://…).',
      };
    case 'reference':
      return {
        message: `“${shown}” takes its address from elsewhere in the file, and cannot be kept.`,
        fix: 'Write the address in the link itself: [text](https://…).',
      };
    case 'image-outside-figures':
      return {
        message: `The picture “${shown}” is not in the trees' figures folder, so it cannot travel with the tree.`,
        fix: 'Put it there and write ![what it shows](figures/name.png); .png, .jpg, .svg or .webp, small letters and hyphens.',
      };
    case 'link-address':
      return {
        message: `“${shown}” is not an address that prose may link to.`,
        fix: 'Link to a step (#step), another tree (name.tree.mdx), an https:// page or a telephone (tel:…).',
      };
    case 'link-title':
      return { message: `The second text of the link, “${shown}”, cannot be kept.`, fix: 'Take it out; what matters goes in the sentence.' };
    case 'text-in-component':
      return { message: `<${shown}> holds text, which it cannot keep.`, fix: `Close it at once, <${shown} … />, and put the text after it.` };
    case 'too-deep':
      return { message: `“${shown}” stands too deep inside lists, quotations or emphasis.`, fix: 'Write it flat: two levels are enough.' };
    case 'anchor':
      return { message: `“${shown}” refers to another place of the front matter, and cannot be kept.`, fix: 'Write the value itself.' };
    case 'tag':
      return { message: `“${shown}” names a type, which front matter does not have.`, fix: 'Take it out: every value is text.' };
    case 'markup':
      return { message: `“${shown}” is something that prose cannot keep.`, fix: 'Use paragraphs, lists, ### headings, emphasis, links and figures.' };
  }
}

function badHeading({ why, title }: Of<'bad-heading'>): Words {
  switch (why) {
    case 'empty':
      return { message: 'This step has no title.', fix: 'Write what the tech does after the ##, such as ## Power at R and C.' };
    case 'not-plain':
      return { message: `The title “${cut(title)}” has emphasis, code or a link in it.`, fix: 'A title is plain text.' };
    case 'no-id':
      return { message: `No id can be made of the title “${cut(title)}”.`, fix: 'Give the step one in its component: id="power-at-r-and-c".' };
    case 'level-1':
      return {
        message: `“${cut(title)}” is a heading of the first level.`,
        fix: 'The title of the tree stands in the front matter. A step takes ##, a heading in its text ###.',
      };
    case 'level-5':
      return { message: `“${cut(title)}” is a heading too deep for a step's text.`, fix: 'Use ### or ####.' };
    case 'inside':
      return {
        message: `The step heading “${cut(title)}” stands inside a component, a list or a quotation.`,
        fix: 'Close what is open before it, or use ### for a heading in text.',
      };
  }
}

function badWay(data: Of<'bad-way'>): Words {
  const shown = cut(data.text);
  if (data.why === 'not-for-kind') {
    const task = data.kind === 'act' ? 'an Act' : data.kind === 'ask' ? 'this Ask' : 'this step';
    return { message: `“${shown}” is not something that ${task} goes on with.`, fix: orOneOf(data.suggestion, data.known, 'It goes on with') };
  }
  const form = 'Write each way as “- below 2 V: [Title of the step](#title-of-the-step)”.';
  switch (data.why) {
    case 'not-a-list':
      return { message: `“${shown}” stands in <Next> and is not a list of ways on.`, fix: form };
    case 'numbered':
      return { message: 'The ways on are numbered; they have no order.', fix: 'Begin each with a hyphen.' };
    case 'no-link':
      return { message: `“${shown}” does not say where it leads.`, fix: form };
    case 'text-after-link':
      return { message: `There is text after the link in “${shown}”.`, fix: `Nothing follows the link. ${form}` };
    case 'more-than-a-line':
      return { message: `“${shown}” has more than one line.`, fix: form };
    case 'no-on':
      return { message: `“${shown}” does not say when it is taken.`, fix: form };
    case 'not-plain':
      return { message: `“${shown}” has emphasis or code in it.`, fix: 'What a way is taken on is plain text.' };
    case 'link-form':
      return {
        message: `“${shown}” is not the address of a step.`,
        fix: 'Write #step for a step of this tree, other-tree.tree.mdx#step for one of another.',
      };
    case 'twice':
      return { message: `There are two ways on for “${shown}”.`, fix: 'Keep one, or tell them apart.' };
    case 'known-with-others':
      return {
        message: '“known” stands beside other ways on.',
        fix: 'Either the fact is enough, and “known” is the only way; or each choice or band has its own.',
      };
  }
}
