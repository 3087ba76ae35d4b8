#compdef tubewright
# Completion of tubewright for zsh, printed by `tubewright completion zsh`.

# REPLY: the word as a program gets it, without quotes and with ~ spelt out; nothing in it is run.
_tubewright_plain() {
  REPLY=${(Q)1}
  [[ $REPLY == '~/'* ]] && REPLY=$HOME/${REPLY#'~/'}
  return 0
}

_tubewright_frames() { _files -g '*.(yaml|yml)(-.)' }

# The load cases of the frame that the line names, before or after the cursor.
_tubewright_cases() {
  local REPLY executable frame word pending
  local -a names
  integer i
  for ((i = 2; i <= $#words; ++i)); do
    word=$words[i]
    if [[ -n $pending ]] || ((i == CURRENT)); then
      pending=
    elif [[ $word == -?* ]]; then
      [[ ' @VALUED@ ' == *" $word "* ]] && pending=$word
    else
      frame=$word
      break
    fi
  done
  [[ -n $frame && $frame != - ]] || return 1
  _tubewright_plain $program; executable=$REPLY
  _tubewright_plain $frame; frame=$REPLY
  names=(${(f)"$($executable completion --cases=$frame 2>/dev/null </dev/null)"})
  compadd -a names
}

_tubewright() {
  local curcontext=$curcontext state line ret=1 program=$words[1]
  typeset -A opt_args
  local -a commands
  commands=(
@COMMANDS@  )
  _arguments -C \
@PROGRAM_OPTIONS@    '1:command:->command' \
    '*::argument:->argument' && ret=0
  case $state in
    command) _describe -t commands command commands && ret=0 ;;
    argument)
      case $words[1] in
@ARGUMENTS@      esac
      ;;
  esac
  return ret
}

# As a file in $fpath this is the body of the function itself; otherwise it is sourced.
if [[ $funcstack[1] == _tubewright ]]; then
  _tubewright "$@"
else
  compdef _tubewright tubewright
fi
