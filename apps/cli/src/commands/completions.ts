import { Argument, type Command } from 'commander';
import type { AddCommand } from '../options.js';

interface Flag {
  readonly long: string;
  /** What it takes, where that is one of a few words. */
  readonly among: readonly string[];
}

interface Words {
  readonly command: string;
  readonly flags: readonly Flag[];
  /** What the command's first word may be, where that is no file. */
  readonly among: readonly string[];
}

const wordsOf = (program: Command): readonly Words[] =>
  program.commands.map((c) => ({
    command: c.name(),
    flags: c.options.flatMap((o) =>
      o.long === undefined || o.long === null ? [] : [{ long: o.long, among: o.argChoices ?? [] }],
    ),
    among: c.registeredArguments[0]?.argChoices ?? [],
  }));

const longs = (w: Words): string => w.flags.map((f) => f.long).join(' ');

const bash = (words: readonly Words[]): string => `# Source this, or put it into your completions folder.
_fayplate() {
  local word="\${COMP_WORDS[COMP_CWORD]}"
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${words.map((w) => w.command).join(' ')}" -- "$word"))
    return
  fi
  case "\${COMP_WORDS[1]} \${COMP_WORDS[COMP_CWORD-1]}" in
${words.flatMap((w) => w.flags.flatMap((f) => (f.among.length === 0 ? [] : [`    "${w.command} ${f.long}") COMPREPLY=($(compgen -W "${f.among.join(' ')}" -- "$word")); return ;;`]))).join('\n')}
  esac
  if [ "\${word:0:2}" = "--" ]; then
    case "\${COMP_WORDS[1]}" in
${words.map((w) => `      ${w.command}) COMPREPLY=($(compgen -W "${longs(w)}" -- "$word")) ;;`).join('\n')}
    esac
    return
  fi
  case "\${COMP_WORDS[1]} $COMP_CWORD" in
${words.flatMap((w) => (w.among.length === 0 ? [] : [`    "${w.command} 2") COMPREPLY=($(compgen -W "${w.among.join(' ')}" -- "$word")); return ;;`])).join('\n')}
  esac
  COMPREPLY=($(compgen -f -- "$word"))
}
complete -o filenames -F _fayplate fayplate
`;

const zsh = (words: readonly Words[]): string => `#compdef fayplate
if (( CURRENT == 2 )); then
  compadd -- ${words.map((w) => w.command).join(' ')}
else
  case "$words[2]" in
${words.map((w) => `    ${w.command}) compadd -- ${[...w.among, ...w.flags.map((f) => f.long)].join(' ')} ;;`).join('\n')}
  esac
  _files
fi
`;

const fish = (words: readonly Words[]): string =>
  [
    ...words.map((w) => `complete -c fayplate -n __fish_use_subcommand -a ${w.command}`),
    ...words.flatMap((w) =>
      w.among.length === 0
        ? []
        : [`complete -c fayplate -n "__fish_seen_subcommand_from ${w.command}" -a "${w.among.join(' ')}"`],
    ),
    ...words.flatMap((w) =>
      w.flags.map(
        (f) =>
          `complete -c fayplate -n "__fish_seen_subcommand_from ${w.command}" -l ` +
          `${f.long.slice(2)}${f.among.length === 0 ? '' : ` -x -a "${f.among.join(' ')}"`}`,
      ),
    ),
    '',
  ].join('\n');

const shells: Readonly<Record<string, (words: readonly Words[]) => string>> = { bash, zsh, fish };

export const completions: AddCommand = (program, io, done) => {
  program
    .command('completions')
    .addArgument(new Argument('<shell>', 'the shell').choices(Object.keys(shells)))
    .description('prints completions for bash, zsh or fish')
    .addHelpText(
      'after',
      '\nExample:\n  fayplate completions bash > ~/.local/share/bash-completion/completions/fayplate',
    )
    .action((shell: string) => {
      io.out(shells[shell]?.(wordsOf(program)) ?? '');
      done(0);
    });
};
