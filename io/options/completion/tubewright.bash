# Completion of tubewright for bash, printed by `tubewright completion bash`.

# The word as a program gets it, without quotes and with ~ spelt out; nothing in it is run.
_tubewright_plain() {
  local word=$1
  case $word in
    \'*) word=${word#\'} word=${word%\'} ;;
    \"*) word=${word#\"} word=${word%\"} ;;
    *)
      [[ $word == '~/'* ]] && word=$HOME/${word#'~/'}
      word=${word//\\/}
      ;;
  esac
  printf '%s' "$word"
}

_tubewright_words() { mapfile -t COMPREPLY < <(compgen -W "$1" -- "$current"); }

_tubewright_directories() {
  compopt -o filenames 2>/dev/null
  mapfile -t COMPREPLY < <(compgen -d -- "$current")
}

_tubewright_frames() {
  compopt -o filenames 2>/dev/null
  mapfile -t COMPREPLY < <(
    compgen -f -X '!*.yaml' -- "$current"
    compgen -f -X '!*.yml' -- "$current"
    compgen -d -- "$current"
  )
}

_tubewright_cases() {
  [[ -n $operand && $operand != - ]] || return
  local executable frame names
  executable=$(_tubewright_plain "$program")
  frame=$(_tubewright_plain "$operand")
  names=$("$executable" completion "--cases=$frame" 2>/dev/null </dev/null)
  _tubewright_words "$names"
}

# The options of the command that may still be given.
_tubewright_options() {
  local option left=()
  for option in $1; do
    [[ $given == *" $option "* ]] || left+=("$option")
  done
  _tubewright_words "${left[*]}"
}

_tubewright() {
  local program=$1 current=${COMP_WORDS[COMP_CWORD]} command=${COMP_WORDS[1]}
  local operand='' given=' ' value_of='' pending='' only_operands='' word i
  COMPREPLY=()
  [[ $current == = ]] && current=''
  if ((COMP_CWORD == 1)); then
    case $current in
      -*) _tubewright_words '@PROGRAM_OPTIONS@' ;;
      *) _tubewright_words '@COMMANDS@' ;;
    esac
    return
  fi

  # What the other words are; bash takes `--case=brake` apart at the =.
  for ((i = 2; i < ${#COMP_WORDS[@]}; ++i)); do
    word=${COMP_WORDS[i]}
    if ((i == COMP_CWORD)); then
      value_of=$pending pending=''
    elif [[ -n $pending ]]; then
      [[ $word == = ]] || pending=''
    elif [[ -n $only_operands || $word == - || $word != -* ]]; then
      operand=${operand:-$word}
    elif [[ $word == -- ]]; then
      ((i < COMP_CWORD)) && only_operands=yes
    else
      case $word in
@LONG_NAMES@      esac
      [[ ' @REPEATED@ ' == *" $word "* ]] || given+="$word "
      [[ ' @VALUED@ ' == *" $word "* ]] && pending=$word
    fi
  done

  case "$command $value_of" in
@VALUES@  esac
  case $command in
@ARGUMENTS@  esac
}

complete -F _tubewright tubewright
