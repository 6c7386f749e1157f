import type { Command } from 'commander';
import type { AddCommand } from './command.js';

interface Words {
  readonly command: string;
  readonly flags: readonly string[];
}

const wordsOf = (program: Command): readonly Words[] =>
  program.commands.map((c) => ({ command: c.name(), flags: c.options.flatMap((o) => (o.long === undefined || o.long === null ? [] : [o.long])) }));

const bash = (words: readonly Words[]): string => `# Source this, or put it into your completions folder.
_fayplate() {
  local word="\${COMP_WORDS[COMP_CWORD]}"
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${words.map((w) => w.command).join(' ')}" -- "$word"))
    return
  fi
  if [ "\${word:0:2}" = "--" ]; then
    case "\${COMP_WORDS[1]}" in
${words.map((w) => `      ${w.command}) COMPREPLY=($(compgen -W "${w.flags.join(' ')}" -- "$word")) ;;`).join('\n')}
    esac
    return
  fi
  COMPREPLY=($(compgen -f -- "$word"))
}
complete -o filenames -F _fayplate fayplate
`;

const zsh = (words: readonly Words[]): string => `#compdef fayplate
if (( CURRENT == 2 )); then
  compadd -- ${words.map((w) => w.command).join(' ')}
else
  case "$words[2]" in
${words.map((w) => `    ${w.command}) compadd -- ${w.flags.join(' ')} ;;`).join('\n')}
  esac
  _files
fi
`;

const fish = (words: readonly Words[]): string =>
  [
    ...words.map((w) => `complete -c fayplate -n __fish_use_subcommand -a ${w.command}`),
    ...words.flatMap((w) => w.flags.map((f) => `complete -c fayplate -n "__fish_seen_subcommand_from ${w.command}" -l ${f.slice(2)}`)),
    '',
  ].join('\n');

const shells: Readonly<Record<string, (words: readonly Words[]) => string>> = { bash, zsh, fish };

export const completions: AddCommand = (program, io, done) => {
  program
    .command('completions <shell>')
    .description('prints completions for bash, zsh or fish')
    .addHelpText('after', '\nExample:\n  fayplate completions bash > ~/.local/share/bash-completion/completions/fayplate')
    .action((shell: string) => {
      const make = Object.hasOwn(shells, shell) ? shells[shell] : undefined;
      if (make === undefined) {
        io.err(`fayplate completions: bash, zsh or fish, not "${shell.slice(0, 40)}"\n`);
        done(2);
        return;
      }
      io.out(make(wordsOf(program)));
      done(0);
    });
};
