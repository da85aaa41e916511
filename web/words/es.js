// Botones, rótulos y frases cortas de la página. Lo que dice el motor viene del motor.

export default {
  name: "Rackside",
  back: "Atrás",
  verdict: { pass: "pasa", watch: "vigilar", fail: "falla", cannot_tell: "no se sabe" },
  state: { isolated: "Bloqueada", stopped: "Parada, energizada", starting: "Arrancando", running: "En marcha" },
  shortState: { isolated: "Bloqueada", stopped: "Parada", running: "En marcha", starting: "Arrancando" },
  label: { as_found: "Como se encontró", interim: "Intermedio", as_left: "Como se dejó" },
  group: {
    look: "Mire, escuche, toque",
    supply: "Suministro",
    control: "Control y sobrecarga",
    make_safe: "Aislar",
    isolated: "Bloqueada",
    start: "Un arranque con testigo",
    running: "En marcha",
    oil: "Aceite",
    heat: "Presiones y calor",
    repair: "Reparación",
  },
  unit: {
    V: "V", mV: "mV", A: "A", mA: "mA", ohm: "Ω", mohm: "mΩ", kohm: "kΩ", Mohm: "MΩ", F: "°F", C: "°C", K: "K",
    uF: "µF", inHg_vac: "inHg vac", fraction: "de la mirilla", floz: "fl oz",
  },
  key: {
    value: "", known_source_before: "Fuente conocida, antes", known_source_after: "Fuente conocida, después",
    winding_temperature: "Devanado", at_30s: "A los 30 s", since_start: "Desde el arranque, s", duration: "El arranque tardó, s",
    lead_zero: "Puntas en corto marcan", test_voltage: "Voltaje de prueba", "bank-1": "Banco 1", "bank-2": "Banco 2", "bank-3": "Banco 3",
  },
  choice: {
    leads: { title: "Cables del motor", on: "puestos", off: "quitados" },
    same_start: { title: "Las tres en un arranque", true: "sí", false: "no" },
    capture: { title: "El medidor lo tomó como", inrush: "inrush", min_max: "mín/máx", peak: "pico" },
    called: { title: "Con llamado", true: "sí", false: "no" },
    moment: { title: "Momento", pull_in: "al cerrar", sealed: "ya cerrado" },
    method: { title: "Se midió", to_return: "contra el retorno", across: "sobre cada uno" },
    load: { title: "Carga", full: "plena", unloaded: "descargado" },
    roll: { title: "Cables rotados", 0: "como estaban", 1: "un lugar", 2: "dos lugares" },
    probe: { title: "Sonda", clamp: "pinza", insulated_clamp: "pinza aislada", well: "termopozo", infrared: "infrarrojo" },
    where: { title: "Dónde", source: "fuente", disconnect: "desconectador", contactor: "contactor" },
  },
  callState: {
    open: "abierta", submitted: "enviada a la oficina", returned: "devuelta", watching: "en vigilancia",
    accepted: "aceptada", closed: "cerrada",
  },
  gate: { open: "abierta", shut: "todavía no" },
  keys: { ">": "mayor que", OL: "OL, fuera de escala", "±": "más o menos", clear: "borrar este campo" },
  band: { between: (low, high) => `${low} a ${high}`, within: (high) => `dentro de ±${high}`, upTo: (high) => `hasta ${high}`, from: (low) => `desde ${low}` },
  today: (time) => `hoy, ${time}`,

  signIn: {
    title: "Entre una vez",
    why: "Este teléfono recibe su propia llave. Después trabaja sin señal y solo vuelve a preguntar para enviar.",
    name: "Su nombre", password: "Contraseña", device: "Nombre de este teléfono", go: "Entrar", busy: "Preguntando a la oficina…",
    noLine: "No se alcanza la oficina. Entre donde haya señal; después ya no hace falta.",
  },
  ready: {
    yes: "Listo para estar sin señal", no: "No está listo para estar sin señal",
    title: "Sin señal", heldAs: (at) => `al ${at}`, never: "todavía no se ha leído de la oficina",
    holds: (sites, machines) => `${count(sites, "sitio")}, ${count(machines, "máquina")}`,
    engine: (vectors) => (vectors ? `motor de juicio ${vectors.passed} de ${vectors.of}` : "comprobando el motor de juicio"),
    need: {
      page: "La página completa está guardada en este teléfono",
      engine: "El motor de juicio coincide aquí con sus ejemplos resueltos",
      register: "Sitios, máquinas y sus últimas visitas están aquí",
      "sign-in": "Usted ya entró",
    },
    persisted: {
      "": "Todavía no se pregunta: se pregunta con la primera lectura guardada.",
      granted: "El navegador prometió no borrar lo que se guarda aquí.",
      refused: "El navegador puede borrar lo guardado cuando falte espacio. Ponga Rackside en la pantalla de inicio y envíe en cuanto pueda.",
      unknown: "Este navegador no dice si conserva las cosas. Ponga Rackside en la pantalla de inicio y envíe en cuanto pueda.",
    },
    storage: "Conservar", clock: "Relojes", sending: "Envío", startedIn: (ms) => `El motor de juicio arrancó en ${ms} ms.`,
    clockFine: "Este teléfono y la oficina tienen la misma hora.",
    clockOff: (seconds) => `Este teléfono está ${duration(Math.abs(seconds))} ${seconds > 0 ? "adelantado" : "atrasado"} respecto a la oficina. Las horas se guardan como las muestra este teléfono.`,
    signOut: "Salir", signOutKeeps: (n) => `${count(n, "anotación suya", "anotaciones suyas")} sin enviar. Se quedan en este teléfono y salen cuando usted vuelva a entrar aquí.`,
    left: (bytes) => `Quedan ${Math.round(bytes / 1e6)} MB de espacio.`, carry: "Llevar a mano",
  },
  line: {
    photos: (n) => `${count(n, "foto guardada", "fotos guardadas")}, sin enviar`,
    allSent: "todo enviado", waiting: (n) => `${count(n, "anotación guardada", "anotaciones guardadas")}, sin enviar`,
    others: (n) => `${n} de otra persona esperan a que ella entre`,
    sendNow: "Enviar ya", sending: "enviando…", noLine: "sin línea con la oficina",
    password: "La oficina pide su contraseña antes de recibir más. Las lecturas se siguen guardando.",
    trouble: (detail) => `El envío se detuvo: ${detail}`,
    last: (at) => `al corriente a las ${at}`,
  },
  stand: { kept: "guardada en este teléfono", sent: "enviada", refused: "rechazada por la oficina" },
  calls: {
    mine: "Suyas", others: "Otras llamadas abiertas", done: "Entregadas", none: "Aquí no hay llamadas abiertas.", open: "Abrir una llamada",
    refused: (n) => `${count(n, "anotación rechazada", "anotaciones rechazadas")} por la oficina`,
  },
  newCall: {
    title: "Abrir una llamada", machine: "¿Qué máquina?", complaint: "¿Por qué llamaron?",
    reported: "Qué se dijo (texto de la alarma, cada cuánto, quién restableció)", go: "Abrir la llamada", rack: (name) => `Rack ${name}`,
    newSite: "Un sitio que no está aquí", newMachine: "Una máquina que no está aquí",
    none: "Este teléfono todavía no tiene máquinas. Las lee cuando hay línea con la oficina.",
  },
  call: {
    tabs: { measure: "Trabajo", signs: "Visto", findings: "Hallazgos", close: "Entregar" },
    back: "Llamadas", returned: "La oficina la devolvió",
    plate: "Placa", all: "Mostrar todos los puntos", fewer: "Solo los puntos que se juzgan", notTaken: "no se tomó",
    unjudged: "leído", next: "Sigue:", or: "o", look: "Mire:",
  },
  plate: {
    rated_voltage: ["Volts", "V"], rated_load_current: ["Corriente nominal", "A"], max_continuous_current: ["Máx. continua", "A"],
    locked_rotor_current: ["Rotor bloqueado", "A"], refrigerant: ["Refrigerante", ""], type: ["Tipo", ""], start: ["Arranque", ""], serial: ["Serie", ""], model: ["Modelo", ""],
  },
  entry: {
    nextField: "Sigue", keep: "Guardar", correct: "Guardar la corrección", notTaken: "No se tomó, porque…", unit: "Unidad", meter: "Medidor", noMeter: "sin nombrar",
    state: "Máquina", last: (at) => `Última visita ${at}`, allowed: "Permitido", waiting: "Escriba una fase para ver dónde queda.",
    kept: (at) => `Guardada en este teléfono a las ${at}`, notSent: "sin enviar", again: "Corregirla", repeat: "Tomar otra vez", round: "La ronda", next: (title) => `Sigue: ${title}`,
    corrects: "Corrección. La primera lectura se queda en la bitácora.", noVerdict: "Guardada. Ningún límite publicado se aplica a este punto solo.",
    gone: "Las lecturas se guardan; en este teléfono no hay veredictos.", back: "Borrar el último dígito", other: "Otra razón", keepReason: "Guardar la razón",
    hold: "Mantenga pulsadas las cifras para corregirlas.", writtenBy: (who, at) => `${who}, ${at}`, nowLeg: (leg) => `Ahora ${leg}`,
    caution: "Antes de esta lectura", acknowledge: "Entendido, seguir",
    picked: "elegido", addMeter: "agregar un medidor…", undo: "Deshacer",
  },
  findings: {
    none: "Todavía no se juzga nada. Tome una lectura y su veredicto queda aquí.", causes: "A qué apunta", word: { likely: "probable", possible: "posible" }, for: "Habla a favor", against: "Habla en contra", gates: "Puertas", needs: "todavía faltan", blocks: "cerrada por",
    notShown: (n) => `No lo muestra lo leído: ${n}`, thisOne: "Esta es la causa",
  },
  signs: { hint: "Toque lo que vio, oyó o leyó. Toque otra vez para “se miró, no estaba”.", yes: "sí", no: "no estaba", unasked: "sin mirar",
    where: "Dónde se mira", place: { panel: "Tablero", eyes: "Máquina", oil: "Aceite", ears: "Oír, tocar", log: "Bitácora, dicho" } },
  close: {
    decision: "Decisión",
    decisions: { restart: "Arrancar", repair: "Reparar", run_under_watch: "Trabajar en vigilancia", condemn: "Dar de baja", no_fault_found: "Sin falla encontrada" },
    cause: "Causa, a su parecer", reason: "Por qué, en una frase", keep: "Guardar la decisión", note: "Nota a la oficina", submit: "Entregar a la oficina",
    submitted: "Entregada. Va a la oficina en cuanto haya línea.", state: "Esta llamada está", pick: "elija",
    kept: "Decidido:", watch: "Vigilar por", days: (n) => (n === "1" ? "1 día" : `${n} días`), watchedUntil: (at) => `en vigilancia hasta ${at}`,
    approver: "Quién de la oficina estuvo de acuerdo", signature: "Firma",
    signatureWhy: "Quien recibe la máquina firma por lo dicho y mostrado, no por su salud.",
    who: "Nombre", role: "Quién es", roles: ["turno de noche", "gerente", "técnico"], ink: "Firme aquí con el dedo", wipe: "Borrar", keepSignature: "Guardar la firma",
    signedBy: (who, at) => `Firmó ${who}, ${at}.`,
  },
  refused: {
    title: "Rechazadas por la oficina", why: "Se conservan en este teléfono y no avanzan hasta que algo cambie.", again: "Enviar otra vez", remedy: "Qué hacer",
    correct: "Corregir", sendCorrected: "Enviar la corrección",
  },
  photos: {
    title: "Fotos", take: "Tomar una foto", none: "Todavía no hay fotos.", fetch: "Traerla de la oficina",
    hint: "Se achican en este teléfono, sin datos de lugar ni de cámara, y se envían después de su anotación.",
    shows: { alarm: "Alarma", plate: "Placa", panel: "Tablero", oil: "Aceite", part: "Pieza", other: "Otra" },
    standing: {
      kept: "guardada en este teléfono, sin enviar", office: "en la oficina", coming: "en camino…", refused: "rechazada por la oficina",
      "not-yet": "El teléfono que la tomó todavía no la envía.", "no-line": "Sin línea con la oficina. Allá se conserva.",
    },
    trouble: { busy: "Achicando y guardando…", unreadable: "Esta imagen no se puede leer aquí. No se guardó nada; tómela otra vez." },
  },
  clocks: {
    title: "Relojes", more: "Poner un reloj a mano", due: (at) => `vence a las ${at}`, wasDue: (at) => `venció a las ${at}`, over: (text) => `${text} de más`, done: "se cumplió el tiempo",
    awake: "La pantalla queda encendida mientras corre.", mayLock: "Este navegador puede bloquear la pantalla; el tiempo sigue igual.",
    heard: "Sonido y vibración solo con esta página al frente.", putAway: (what) => `Quitar: ${what}`,
    what: { insulation_minute: "Minuto de aislamiento", oil_timing: "Tiempo de aceite", next_start_allowed: "Espera entre arranques", cooling: "Enfriamiento" },
    start: {
      insulation_minute: (s) => `Contar ${s} s`, oil_timing: (s) => `Contar ${s} s de aceite`,
      next_start_allowed: (s) => `Esperar ${s / 60} min`, cooling: (s) => `Enfriar ${s / 60} min`,
    },
  },
  code: {
    title: "Código de etiqueta", label: "El código en la etiqueta de la máquina", none: "Ninguna máquina de aquí tiene este código. Puede ser de un sitio que este teléfono no tiene.",
    fault: { short: "Un código tiene al menos seis signos.", mistyped: "Un código no tiene O, 0, I ni 1: mire otra vez." },
  },
  machine: { calls: "Llamadas", visits: "Últimas visitas", gone: "Esta máquina no está en este teléfono" },
  carry: {
    title: "Llevar a mano", out: "Lo no enviado, como archivo", outWhy: "Otro teléfono o la oficina lo puede recibir. Aquí no se quita nada: sale igual cuando haya línea.",
    write: (n) => (n ? `Escribir ${count(n, "anotación", "anotaciones")} en un archivo` : "Aquí no espera nada"), in: "Un archivo de otro teléfono", inWhy: "Sus anotaciones conservan su autor y su teléfono. Las suyas salen desde aquí; las de otra persona esperan a que ella entre, o a la oficina.",
    take: "Recibir un archivo", written: (n, photos) => `${count(n, "anotación escrita", "anotaciones escritas")}, ${count(photos, "foto")}.`,
    taken: (n, known, by) => `${count(n, "anotación recibida", "anotaciones recibidas")}${by ? ` de ${by}` : ""}${known ? `, ${known} ya estaban aquí` : ""}.`,
    fault: {
      unreadable: "Este archivo no se puede leer. No se recibió nada; pida que lo escriban otra vez.", "other-file": "Este no es un archivo de anotaciones sin enviar. No se recibió nada.",
      newer: "Este archivo lo escribió una versión más nueva. Cambie primero aquí a la versión nueva.", "not-kept": "El teléfono no lo pudo guardar. No se recibió nada.",
    },
  },
  share: {
    go: "Compartir como texto", head: (tag, site) => `Compresor ${tag}${site ? `, ${site}` : ""}`, causes: "A qué apunta:", nothing: "Todavía no se juzga nada.", byHand: "Cópielo de aquí:",
    caution: "Lo que se midió, y la regla con que se comparó. Primero van el programa de seguridad del patrón, la norma local y el fabricante.",
  },
  install: {
    title: "Póngalo en la pantalla de inicio", why: "Ahí abre sin señal, y es menos probable que el navegador borre lo guardado. Hágalo antes de empezar: la pantalla de inicio tiene su propio almacén.",
    go: "Ponerlo", later: "Ahora no", byHand: "Toque el botón de compartir del navegador, después “Agregar a inicio”, y ábralo desde ahí.",
  },
  settings: {
    title: "Ajustes", language: "Idioma",
    theme: { title: "Luz", dark: "Cuarto oscuro", sun: "Sol" }, text: { title: "Letras", usual: "Usuales", large: "Grandes", largest: "Las más grandes" },
    units: { title: "Unidades que se ofrecen primero", us: "EE. UU. (°F, psi)", si: "SI (°C, kPa)", note: "Solo qué unidad ofrece primero un campo. Lo leído se queda en la unidad en que se leyó." },
    legs: { title: "Fase siguiente", itself: "Por sí sola", key: "Con la tecla Siguiente", note: "Por sí sola solo tras OL, o cuando el número se parece al de la fase anterior. Cualquier tecla en segundo y medio la detiene." },
  },
  diagnose: {
    title: "Cómo está este teléfono", why: "Para la oficina, cuando algo parece mal. Funciona sin señal.",
    engine: "Motor de juicio", page: "Página", store: "Almacén", line: "Línea con la oficina", state: "Estado", started: "Arrancó en", vectors: "Ejemplos resueltos", version: "Versión", digest: "Huella",
    states: { starting: "arrancando", ready: "listo", restarting: "arrancando otra vez", gone: "no está" }, ms: (n) => `${n} ms`, of: (passed, all) => `${passed} de ${all} coinciden`,
    offline: "Trabaja sin señal", language: "Idioma", browser: "Navegador", persisted: "Prometió no borrar", left: "Espacio libre", megabytes: (bytes) => `${Math.round(bytes / 1e6)} MB`,
    answers: { "": "sin preguntar", granted: "sí", refused: "no", unknown: "no lo dice" },
    counts: { entries: "Anotaciones", outbox: "Sin enviar", refused: "Rechazadas", photos: "Fotos sin enviar", machines: "Máquinas con historia" },
    trouble: "Problema", signedIn: "Entró", lastLine: "Al corriente", lastRead: "Última lectura", lineTrouble: "Problema", cursor: "Leído hasta",
    yes: "sí", no: "no", none: "ninguno", never: "nunca", unknown: "no lo dice", notHeld: "todavía no se guarda",
  },
  job: {
    map: "Todo el trabajo", first: "Primero: ¿qué abrió?", firstWhy: "Anótelo antes de que alguien restablezca. Al restablecer se borra.",
    stand: { open: "", begun: "empezado", done: "hecho", skipped: "omitido" },
    openItems: "Todavía abierto", closeIt: "Cerrarlo", close: { jumper: "Ya se quitó", lead: "Ya se reconectó", rolled_leads: "Ya se regresaron", valve: "Ya se regresó" },
    skip: "Omitir este paso, porque…", takeUp: "Retomarlo", next: (step) => `Sigue: ${step}`, count: (n, of) => `${n} de ${of}`, skipped: (reason) => `Omitido: ${reason}.`, moot: (n) => `${n} sin preguntar, y por qué`,
    lane: {
      isolate: (by) => `${by}: aísle y pruebe el aislamiento antes de restablecer nada.`,
      live: (by) => `${by}: primero suministro, cadena de control y contactor, energizado. Aislar borraría qué contacto estaba abierto.`,
    },
    laneBy: { burnt_smell: "Olor a quemado", breaker: "Abrió el breaker", fuse: "Abrió un fusible", other: "No abrió breaker ni fusible", unknown: "No se sabe que abriera breaker ni fusible" },
    step: {
      alarm: "Alarma como se encontró", machine: "La máquina", look: "Mire, escuche, toque", supply: "Suministro", control: "Cadena de control y contactor",
      make_safe: "Aislar", isolated: "Pruebas en bloqueo", start: "Un arranque con testigo", running: "Ronda en marcha", oil: "Lado de aceite", heat: "Presiones y calor",
      repair: "Reparación y piezas", as_left: "Como se dejó junto a como se encontró", gates: "Puertas", decision: "Decisión y vigilancia", hand_over: "Entrega",
    },
    hint: {
      alarm: "Qué dispositivo abrió, en qué orden y cuándo. Tome su foto antes de que alguien restablezca.", supply: "Energizado. Lea el suministro antes de aislar.",
      control: "Energizado, y como lo encontró.", make_safe: "Primero va la regla de bloqueo de su empresa. Aquí queda lo que usted hizo y cuándo.",
      isolated: "Bloqueada, intentada y probada. Cárter arriba de 0 psig.", gates: "Consejo con memoria. Nada aquí le impide aislar o irse.", as_left: "Toque una línea para leerla otra vez como se dejó.",
    },
    alarm: {
      reported: "Dijeron:", before: "Todavía no hay nada anotado.", opened: "Anotar qué abrió", another: "Otro dispositivo", reset: "Alguien restableció",
      ran: "el motor giró", stood: "el motor no giró", noTime: "hora desconocida",
    },
    machine: {
      unknown: "se desconoce", enter: "Anotar o corregir", right: "La placa dice lo mismo", checked: "Comparado con la placa", last: "Lo último que se leyó",
      noHistory: "Este teléfono no guarda visitas anteriores.", unconfirmed: "La oficina todavía no lo confirma. Lo que dice la placa cuenta desde ahora.",
    },
    safe: {
      step: {
        staged: "Fuera de las etapas del controlador, alarmas en prueba, cliente avisado", locked: "Su propio desconectador abierto, bloqueado y etiquetado",
        tried: "Se intentó arrancar: nada se movió", waited: "Se esperaron y midieron capacitores y bus del variador",
      },
      toDo: "por hacer",
      separate: "Voltaje de control, resistencia de cárter, ventilador de cabezas, regulador, un segundo arrancador y el bus de un variador van aparte: pruebe cada uno antes de tocarlo.",
      valves: "Cómo está cada válvula de servicio", valvesLike: "succión abierta, descarga abierta, línea de aceite abierta", valvesKeep: "Las válvulas están como se anotó", valvesAgain: "Anotarlo otra vez", valveMoved: "Moví una válvula",
    },
    start: {
      how: "Las tres fases en un arranque si su medidor puede. Si no, una fase por arranque, y la espera entre arranques corre sola. El voltaje mínimo en el mismo arranque.",
      now: "Se arrancó ahora mismo", at: (time) => `arrancó a las ${time}`,
    },
    repair: { write: "Anotar", done: "Hecho hasta ahora", lines: "Piezas, horas, viaje", addLine: "Agregar una pieza u horas" },
    asLeft: { point: "Lectura", unread: "sin leer" },
    gate: { pass: "Pasar…", against: "Hecho de todos modos…", more: (n) => `${n} más`, met: (n) => `${n} ya resueltas, con qué` },
  },
  moot: {
    no_drive: "esta máquina no tiene variador", no_co2: "no es máquina de CO₂", one_winding: "no arranca por devanado partido", no_oil_pump: "no tiene bomba de aceite",
    no_pump_down: "nunca en este tipo de máquina", no_injection: "sin inyección de líquido en su placa", no_steps: "no tiene etapas de capacidad", never_ran: "el motor no giró",
    no_oil_trip: "el control de aceite no disparó", insulation_read: "se leyó el aislamiento, que dice más",
  },
  sheet: {
    title: { event: "Qué pasó", action: "Qué se hizo", line: "Pieza, horas, viaje", override: "Pasar una puerta", meter: "Un medidor", site: "Un sitio nuevo", machine: "Una máquina nueva", plate: "La placa", signature: "Firma" },
    why: {
      override: "Su nombre y su razón quedan en todo informe desde ahora.", machine: "Lo que deje en blanco no se conoce, y lo que dependa de ello lo dirá.",
      meter: "Lo que dice su hoja de datos decide qué tan firme puede ser un veredicto.",
    },
    keep: "Guardar", optional: "si se sabe", missing: (names) => `Falta, o no es un número: ${names.join(", ")}.`,
    field: {
      device: "¿Qué dispositivo?", what: "¿Qué?", at: "Cuándo", motor_ran: "¿El motor había girado?", by: "Quién", text: "Como está impreso o en pantalla", kind: "¿Cuál?", before: "Antes", after: "Después",
      quantity: "Cuántos", reason: "Por qué", name: "Nombre", serial: "Serie", resolution: "El paso más chico que muestra", percent: "Exactitud, % de la lectura", counts: "Exactitud, más cuentas",
      address: "Dirección", nominal_voltage: "Suministro", grounding: "¿Cómo está aterrizado?", contact: "Contacto", tag: "Letrero de la máquina", rack: "Rack", who: "Nombre", role: "Quién es",
      application: "Temperatura del rack", coil_voltage: "Bobina", overload_setting: "Perilla de sobrecarga según el plano", rated_frequency: "Frecuencia", winding_resistance_25c: "Devanado a 25 °C",
    },
    fieldOf: { action: { what: "¿Sobre qué? Válvula, cable, pieza, ajuste" }, line: { what: "¿Qué fue?" } },
    suggest: { who: ["turno de noche", "se desconoce", "yo"], role: ["turno de noche", "gerente"] },
    option: {
      trip: "disparó", alarm: "alarma", reset: "se restableció", start: "arrancó", stop: "paró", true: "sí", false: "no", part: "pieza", labour: "horas", travel: "viaje", quote: "por cotizar",
      multimeter: "multímetro", clamp: "gancho", megohmmeter: "probador de aislamiento", ohmmeter: "miliohmetro", gauge: "manómetros", thermometer: "termómetro", low: "baja", medium: "media", high: "alta", unknown: "se desconoce",
      "across-the-line": "a tensión plena", "part-winding": "devanado partido", "wye-delta": "estrella-delta", soft: "arrancador suave", drive: "variador",
      "semi-hermetic-reciprocating": "semihermético, pistones", "semi-hermetic-screw": "semihermético, tornillo", "open-reciprocating": "abierto, pistones", "open-screw": "abierto, tornillo", "welded-scroll": "soldado, scroll", "welded-reciprocating": "soldado, pistones",
      "grounded-wye": "estrella aterrizada", "corner-grounded-delta": "delta con una esquina a tierra", "high-leg-delta": "delta con fase alta", ungrounded: "sin aterrizar", "impedance-grounded": "por una impedancia",
    },
  },
  insecure: {
    title: "Esta dirección no puede trabajar sin señal",
    text: "La página llegó por http simple, así que el navegador no la guarda ni la abre sin señal. Pida a la oficina la dirección https y abra esa.",
  },
  update: { text: "Hay una versión nueva.", take: "Cambiar a ella", later: "Guarde o borre los dígitos que está escribiendo y después cambie." },
  trouble: {
    blocked: "Hay otra pestaña de Rackside con una versión anterior. Ciérrela.",
    replaced: "Hay un Rackside más nuevo en otra pestaña. Recargue esta.",
    closed: "El navegador cerró el almacén de este teléfono. Se abre otra vez con la próxima anotación.",
    full: "Este teléfono se quedó sin espacio. Se quitó lo que la oficina puede enviar otra vez; de lo suyo, nada.",
    failed: (what) => `No se guardó: ${what}. Los dígitos siguen aquí; intente otra vez.`,
  },
};

function count(n, one, many = one.replace(/( |$)/g, "s$1")) {
  return `${n} ${n === 1 ? one : many}`;
}

function duration(seconds) {
  return seconds < 7200 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`;
}
