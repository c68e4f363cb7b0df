# SPDX-License-Identifier: GPL-3.0-or-later
# Completion of slowlift for bash: commands, options, model files.

_slowlift() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
    local commands="check run limits rank what-if map search plan mix cost day log compare watch picture pack teach list cautions help"
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        mapfile -t COMPREPLY < <(compgen -W "$commands --help --version --language" -- "$word")
        return
    fi
    if [[ ${COMP_WORDS[1]} == log && $COMP_CWORD -eq 2 ]]; then
        mapfile -t COMPREPLY < <(compgen -W "new show add note import export merge --help" -- "$word")
        return
    fi
    case $before in
        --cotton) mapfile -t COMPREPLY < <(compgen -W "none faint clear strong" -- "$word"); return ;;
        --blind) [[ ${COMP_WORDS[1]} == log && ${COMP_WORDS[2]} == add ]] &&
            { mapfile -t COMPREPLY < <(compgen -W "yes no" -- "$word"); return; } ;;
        --photo) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        --grade | --operator | --title | --swatch | --judge | --test | --note | --replaces) return ;;
        --language) mapfile -t COMPREPLY < <(compgen -W "en es" -- "$word"); return ;;
        --quiz) mapfile -t COMPREPLY < <(compgen -W "before after" -- "$word"); return ;;
        --class) mapfile -t COMPREPLY < <(compgen -d -- "$word"); return ;;
        --day | --seen) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        --answers) mapfile -t COMPREPLY < <(compgen -f -X '!*.yaml' -- "$word"; compgen -d -- "$word"); return ;;
        --clock) mapfile -t COMPREPLY < <(compgen -W "scene contact" -- "$word"); return ;;
        --models) mapfile -t COMPREPLY < <(compgen -d -- "$word"); return ;;
        --light) mapfile -t COMPREPLY < <(compgen -W "daylight lamp led" -- "$word"); return ;;
        --paper) mapfile -t COMPREPLY < <(compgen -W "a4 letter" -- "$word"); return ;;
        --observer) mapfile -t COMPREPLY < <(compgen -W "2 10" -- "$word"); return ;;
        --key) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        --look) mapfile -t COMPREPLY < <(compgen -W "dry wet mix" -- "$word"); return ;;
        --vision) mapfile -t COMPREPLY < <(compgen -W "full protan deutan tritan grey" -- "$word"); return ;;
        --theme) mapfile -t COMPREPLY < <(compgen -W "light dark high-contrast" -- "$word"); return ;;
        --frames) mapfile -t COMPREPLY < <(compgen -d -- "$word"); return ;;
        --covered) mapfile -t COMPREPLY < <(compgen -W "yes no" -- "$word"); return ;;
        --strength | --water | --ratio | --warmer | --time | --age | --grams | --arm) return ;;
        --at | --size | --each | --zone | --floor | --share | --between | --and) return ;;
        --person) mapfile -t COMPREPLY < <(compgen -W "ask" -- "$word"; compgen -f -X '!*.yaml' -- "$word"; compgen -d -- "$word"); return ;;
        --saw | --goal | --label | --members | --seed | --threads | --part) return ;;
        --show) mapfile -t COMPREPLY < <(compgen -W "left base stress" -- "$word"); return ;;
        --surprise | --x | --y | --allowed | --rounds) return ;;
        -o | --picture) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
    esac
    if [[ $word == -* ]]; then
        local options="--models --help"
        case ${COMP_WORDS[1]} in
            run) options="--at --clock --zone --share --colours --between --and --light --observer --look --csv --json -o --models --help" ;;
            limits) options="--arm --saw --person --goal --label --members --seed --threads --science --csv --json -o --part --merge --models --help" ;;
            rank) options="--at --share --zone --surprise --members --seed --threads --science --csv --json -o --picture --models --help" ;;
            map) options="--arm --x --y --zone --show --csv --json -o --picture --models --help" ;;
            search) options="--allowed --csv --json -o --models --help" ;;
            what-if) options="--arm --rounds --strength --water --ratio --warmer --time --age --grams --covered --csv --json --models --help" ;;
            picture) options="--at --frames --size --each --light --observer --look --vision --theme -o --models --help" ;;
            teach) options="--answers --educator --language --quiz --class --csv --models --help" ;;
            compare) options="--example --at --zone --floor --csv --json -o --picture --models --help" ;;
            day) options="--summary --blind --plain --help" ;;
            plan) options="--repeats --people --seed --looks --ladder --apply --remove --look --mix --scale --waste --spread --blind --key --csv --json -o --models --help" ;;
            mix) options="--arm --hair --grams --waste --scale --have --want --liquid --json --models --help" ;;
            cost) options="--powder --developer --scene --repeats --per-week --csv --json --models --help" ;;
            pack) options="--repeats --people --seed --looks --ladder --apply --remove --look --mix --scale --waste --spread --blind --paper -o --models --help" ;;
            check) options="--models --numbers --help" ;;
            log)
                case ${COMP_WORDS[2]} in
                    new) options="--operator --title --repeats --people --looks --seed --models --help" ;;
                    show) options="--blind --help" ;;
                    add) options="--swatch --zone --judge --grade --cotton --feel --stretch --outcome --minute --hours_after --blind --at --L --a --b --sd_L --sd_a --sd_b --n --illuminant --observer --geometry --level --tone --photo --note --replaces --test --help" ;;
                    note) options="--test --swatch --help" ;;
                    import) options="--test --again --help" ;;
                    export) options="--csv --json -o --help" ;;
                esac ;;
            watch) options="--theme --vision --light --look --observer --text --size --at --lesson --answers --class --educator --classroom --language --day --seen --test --models --help" ;;
            list) ;;
            *) options="--help" ;;
        esac
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
        return
    fi
    if [[ ${COMP_WORDS[1]} == log || ${COMP_WORDS[1]} == compare ]]; then
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
        return
    fi
    mapfile -t COMPREPLY < <(compgen -f -X '!*.yaml' -- "$word"; compgen -d -- "$word")
}

complete -o filenames -F _slowlift slowlift
