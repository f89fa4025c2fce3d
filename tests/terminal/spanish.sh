#!/bin/bash
# The whole way in Spanish, with a decimal comma, and back to English in the middle of a step.
. "$(dirname "$0")/screen.sh"
sed -i 's|mg/dL|mmol/L|; s|"language": "en"|"language": "es"|' "$work/child.json"
starts_small
sees_first "ATIENDA AQUÍ"
sees "Intente despertar a Mara. ¿Qué pasa?"
types no; sees "Aquí las respuestas son de 1 a 3."
types 1; sees "¿Alguien ya dio algo?"; types 1
sees "Mida la glucosa."
types 52; sees "52 mmol/L no puede ser. Escríbalo con su coma, como 5,2 o 10,5."
types 2,9
sees "Usted dijo: 2.9 mmol/L"
sees "7 g de azúcar ahora: 75 mL de jugo de manzana"
types ""
sees "Faltan"
types p; sees "¿Qué va peor?"; types ""
types m; sees "Terminar este episodio del todo"; types 5
sees "Time left"
sees_first "TREAT HERE"
