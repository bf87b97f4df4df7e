<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de">
<context>
    <name>ActionText</name>
    <message>
        <source>There is no screw for it: see that the jack slides freely and falls back; work on the jack is for a maker.</source>
        <translation>Dafür gibt es keine Schraube: prüfen, ob der Springer frei gleitet und zurückfällt; Arbeit am Springer ist Sache des Instrumentenbauers.</translation>
    </message>
    <message>
        <source>Its end screw, in steps of an eighth of a turn, so that the jack stands higher; stop at resistance, old screws break. Then hear its damper: it stands higher too.</source>
        <translation>Stellschraube am Fuß in Achteldrehungen, sodass der Springer höher steht; bei Widerstand aufhören, alte Schrauben brechen. Danach den Dämpfer hören: er steht dann auch höher.</translation>
    </message>
    <message>
        <source>Its end screw, in steps of an eighth of a turn, so that the jack stands lower; stop at resistance, old screws break.</source>
        <translation>Stellschraube am Fuß in Achteldrehungen, sodass der Springer tiefer steht; bei Widerstand aufhören, alte Schrauben brechen.</translation>
    </message>
    <message>
        <source>See which of the two jacks stands unlike its neighbours, and turn that one&apos;s end screw, an eighth of a turn at a time; stop at resistance.</source>
        <translation>Nachsehen, welcher der beiden Springer anders steht als seine Nachbarn, und dessen Stellschraube drehen, jeweils eine Achteldrehung; bei Widerstand aufhören.</translation>
    </message>
    <message>
        <source>%1 and %2 pluck as one: a heavy key.</source>
        <translation>%1 und %2 reißen zugleich an: die Taste geht schwer.</translation>
    </message>
    <message>
        <source>%2 plucks before %1: the wrong way round.</source>
        <translation>%2 reißt vor %1 an: verkehrte Reihenfolge.</translation>
    </message>
    <message>
        <source>%1 comes too late, %2 times the usual gap: it may fail when the key is not pressed right down.</source>
        <translation>%1 kommt zu spät, beim %2-Fachen des üblichen Abstands: der Anriss kann ausbleiben, wenn die Taste nicht ganz niedergedrückt wird.</translation>
    </message>
    <message>
        <source>%1 was not heard: it does not pluck, or plucks with another.</source>
        <translation>%1 war nicht zu hören: reißt nicht an, oder zugleich mit einem anderen.</translation>
    </message>
    <message>
        <source>Play it with that register alone first.</source>
        <translation>Zuerst mit diesem Register allein spielen.</translation>
    </message>
    <message>
        <source>Bring the jack of %1 earlier.</source>
        <translation>%1: Springer auf früheren Anriss stellen.</translation>
    </message>
    <message>
        <source>Bring the jack of %1 later.</source>
        <translation>%1: Springer auf späteren Anriss stellen.</translation>
    </message>
    <message>
        <source>weak by %1 dB.</source>
        <translation>um %1 dB zu schwach.</translation>
    </message>
    <message>
        <source>loud by %1 dB.</source>
        <translation>um %1 dB zu laut.</translation>
    </message>
    <message>
        <source>dull: its partials lie %1 octaves lower than the neighbours&apos;.</source>
        <translation>dumpf: die Teiltöne liegen um %1 Oktaven tiefer als bei den Nachbarn.</translation>
    </message>
    <message>
        <source>bright: its partials lie %1 octaves higher than the neighbours&apos;.</source>
        <translation>hell: die Teiltöne liegen um %1 Oktaven höher als bei den Nachbarn.</translation>
    </message>
    <message>
        <source>a noisy pluck, %1 dB more than the neighbours.</source>
        <translation>Anriss mit Nebengeräusch, %1 dB mehr als bei den Nachbarn.</translation>
    </message>
    <message>
        <source>dies away too soon, in %1 % of the usual time.</source>
        <translation>verklingt zu bald, in %1 % der üblichen Zeit.</translation>
    </message>
    <message>
        <source>The string moves like its neighbours&apos;: it is the board, the room or the microphone. Leave the plectrum.</source>
        <translation>Die Saite schwingt wie ihre Nachbarn: es liegt am Resonanzboden, am Raum oder am Mikrofon. Den Kiel lassen, wie er ist.</translation>
    </message>
    <message>
        <source>The string is displaced unlike its neighbours too: the plectrum.</source>
        <translation>Auch die Auslenkung der Saite weicht von den Nachbarn ab: es liegt am Kiel.</translation>
    </message>
    <message>
        <source>Plectrum or place cannot be told yet.</source>
        <translation>Ob Kiel oder Aufstellung, ist noch nicht zu sagen.</translation>
    </message>
    <message>
        <source>See that the register is fully on and the jack free; a voicer would set it forward, or replace it.</source>
        <translation>Prüfen, ob das Register ganz eingeschaltet ist und der Springer frei läuft; beim Intonieren würde der Kiel vorgesetzt oder ersetzt.</translation>
    </message>
    <message>
        <source>A voicer would thin it from below where it bends least, last of all, and not on one day&apos;s evidence.</source>
        <translation>Beim Intonieren würde der Kiel von unten dünner geschnitten, wo er sich am wenigsten biegt – als Letztes und nicht auf den Befund eines einzigen Tages hin.</translation>
    </message>
    <message>
        <source>Look at the tip and whether the tongue slaps.</source>
        <translation>Die Spitze ansehen und ob die Zunge schlägt.</translation>
    </message>
    <message>
        <source>See whether damper or buff touches while the key is down.</source>
        <translation>Prüfen, ob Dämpfer oder Lautenzug bei gedrückter Taste berühren.</translation>
    </message>
    <message>
        <source>Compare the tip with its neighbours&apos; before anything is cut.</source>
        <translation>Die Spitze mit den Nachbarn vergleichen, bevor irgendetwas geschnitten wird.</translation>
    </message>
    <message>
        <source>Heard again with the microphone elsewhere.</source>
        <translation>Auch mit anders stehendem Mikrofon so gehört.</translation>
    </message>
    <message>
        <source>Not so with the microphone elsewhere: leave it.</source>
        <translation>Mit anders stehendem Mikrofon nicht: so lassen.</translation>
    </message>
    <message>
        <source>Move the microphone half a metre and play it again first.</source>
        <translation>Zuerst das Mikrofon einen halben Meter versetzen und noch einmal spielen.</translation>
    </message>
    <message>
        <source>rings on when the key is let go. The jack stays up, or its damper does not reach the string.</source>
        <translation>klingt nach dem Loslassen der Taste weiter. Der Springer bleibt oben, oder sein Dämpfer erreicht die Saite nicht.</translation>
    </message>
    <message>
        <source>stops %1 ms later than its neighbours: the damper grips badly. Look at its felt, then at its height.</source>
        <translation>endet %1 ms später als die Nachbarn: der Dämpfer greift schlecht. Erst den Filz ansehen, dann die Höhe.</translation>
    </message>
    <message>
        <source>something sounds on under the damper, %1 dB more than beside it. See whether the felt lies flat on the string.</source>
        <translation>unter dem Dämpfer klingt etwas weiter, %1 dB mehr als nebenan. Prüfen, ob der Filz flach auf der Saite liegt.</translation>
    </message>
    <message>
        <source>the damper takes hold %1 ms later than its neighbours&apos;, if the touch was even. It stands high, or the jack falls slowly.</source>
        <translation>der Dämpfer greift %1 ms später als bei den Nachbarn, wenn der Anschlag gleichmäßig war. Er steht hoch, oder der Springer fällt langsam.</translation>
    </message>
    <message>
        <source>plucked %1 of %2 times and then no more: the jack hangs.</source>
        <translation>riss %1 von %2 Malen an und dann nicht mehr: der Springer hängt.</translation>
    </message>
    <message>
        <source>%1 of %2 strokes plucked.</source>
        <translation>%1 von %2 Anschlägen rissen an.</translation>
    </message>
    <message>
        <source> It begins to miss at %1 strokes a second.</source>
        <translation> Ab %1 Anschlägen je Sekunde bleiben Anrisse aus.</translation>
    </message>
    <message>
        <source>%1: %2 %3</source>
        <translation>%1: %2 %3</translation>
    </message>
    <message>
        <source>%1, %2: %3 %4 %5</source>
        <translation>%1, %2: %3 %4 %5</translation>
    </message>
    <message>
        <source>%1, %2: %3</source>
        <translation>%1, %2: %3</translation>
    </message>
    <message>
        <source>Draw each register alone and play the keys once, so that it is known by its voice. Then draw them all.</source>
        <translation>Jedes Register einzeln ziehen und die Tasten einmal spielen, damit es an seiner Stimme erkannt wird. Dann alle ziehen.</translation>
    </message>
    <message>
        <source>Press each key three times, as slowly as you can, right down. %1 of %2 keys heard; %3 known register by register.</source>
        <translation>Jede Taste dreimal so langsam wie möglich ganz niederdrücken. %1 von %2 Tasten gehört; %3 Register für Register bekannt.</translation>
    </message>
    <message>
        <source>Draw one register alone.</source>
        <translation>Ein Register allein ziehen.</translation>
    </message>
    <message>
        <source>%1: play every key three times with the same touch, held a second. %2 of %3 keys heard.</source>
        <translation>%1: jede Taste dreimal mit gleichem Anschlag spielen, eine Sekunde halten. %2 von %3 Tasten gehört.</translation>
    </message>
    <message>
        <source>%1: strike every key three times, short and all alike, a second of silence after each. %2 of %3 keys heard.</source>
        <translation>%1: jede Taste dreimal kurz und gleich anschlagen, danach jeweils eine Sekunde Stille. %2 von %3 Tasten gehört.</translation>
    </message>
    <message>
        <source>%1: play one key ten times, as quickly as you can, then wait two seconds. %2 keys heard.</source>
        <translation>%1: eine Taste zehnmal so schnell wie möglich spielen, dann zwei Sekunden warten. %2 Tasten gehört.</translation>
    </message>
    <message>
        <source>dies away while the key is still down, %1 dB a second faster than its neighbours: damped early. See first that the buff is off and no neighbour&apos;s damper touches; then this damper touches in play: raise it a hair. Cut nothing on one day&apos;s evidence; an old damper is for its maker or a conservator.</source>
        <translation>verklingt schon bei niedergedrückter Taste, %1 dB in der Sekunde schneller als die Nachbarn: zu früh gedämpft. Zuerst nachsehen, ob der Lautenzug aus ist und kein Dämpfer einer Nachbarsaite anliegt; sonst streift dieser Dämpfer beim Spielen: eine Spur höher setzen. Nach einem einzigen Tag nichts beschneiden; ein alter Dämpfer ist Sache der Werkstatt oder der Restaurierung.</translation>
    </message>
</context>
<context>
    <name>AuditionText</name>
    <message>
        <source>The virtual instrument has no two strings for this step.</source>
        <translation>Für diesen Schritt fehlen dem virtuellen Instrument zwei Saiten.</translation>
    </message>
    <message>
        <source>Sounds: %1</source>
        <translation>Es klingt: %1</translation>
    </message>
</context>
<context>
    <name>BeatText</name>
    <message>
        <source>wide</source>
        <translation>weit</translation>
    </message>
    <message>
        <source>narrow</source>
        <translation>eng</translation>
    </message>
    <message>
        <source>still</source>
        <translation>still</translation>
    </message>
    <message>
        <source>wide or narrow?</source>
        <translation>weit oder eng?</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>%1, %2 and %3</source>
        <translation>%1, %2 und %3</translation>
    </message>
    <message>
        <source>wanted: still</source>
        <translation>gewünscht: still</translation>
    </message>
    <message>
        <source>wanted: %1 %2</source>
        <translation>gewünscht: %1 %2</translation>
    </message>
    <message>
        <source>%1 beats by itself, %2 a second: no unison with it gets stiller.</source>
        <translation>%1 schwebt für sich allein, %2 in der Sekunde: kein Einklang damit wird stiller.</translation>
    </message>
    <message>
        <source>Which way is not known: let %1 down a little. Faster, and it was flat; slower, and it was sharp.</source>
        <translation>Die Richtung ist nicht bekannt: %1 ein wenig nachlassen. Wird es schneller, war die Saite zu tief; wird es langsamer, war sie zu hoch.</translation>
    </message>
    <message>
        <source>As wanted. Hand off the hammer, and pluck again to be sure of %1.</source>
        <translation>Wie gewünscht. Hand vom Stimmhammer, und noch einmal anreißen, um bei %1 sicher zu sein.</translation>
    </message>
    <message>
        <source>%1 is too sharp: let it down.</source>
        <translation>%1 ist zu hoch: nachlassen.</translation>
    </message>
    <message>
        <source>%1 is too flat. First a little down: when its beat changes, the hammer is on the right pin. Then up, a little past, and settle down.</source>
        <translation>%1 ist zu tief. Zuerst ein wenig nachlassen: ändert sich die Schwebung, sitzt der Stimmhammer auf dem richtigen Wirbel. Dann hinauf, etwas darüber, und von oben setzen.</translation>
    </message>
</context>
<context>
    <name>BreathText</name>
    <message>
        <source>%1 beats a second, the pin turns</source>
        <translation>%1 Schwebungen je Sekunde, der Wirbel dreht sich</translation>
    </message>
    <message>
        <source>still</source>
        <translation>still</translation>
    </message>
    <message>
        <source>slower than %1 beats a second, %2</source>
        <translation>langsamer als %1 Schwebungen je Sekunde, %2</translation>
    </message>
    <message>
        <source>%1 beats a second, %2</source>
        <translation>%1 Schwebungen je Sekunde, %2</translation>
    </message>
    <message>
        <source>Two strings together: play both keys, or one key with two registers on.</source>
        <translation>Zwei Saiten zusammen: beide Tasten spielen, oder eine Taste mit zwei Registern.</translation>
    </message>
    <message>
        <source>heard at partials %1 and %2, %3</source>
        <translation>gehört an den Teiltönen %1 und %2, %3</translation>
    </message>
    <message>
        <source>%1 Hz</source>
        <translation>%1 Hz</translation>
    </message>
    <message>
        <source>, where they beat %1 times as fast</source>
        <translation>, wo sie %1-mal so schnell schweben</translation>
    </message>
    <message>
        <source>%1, %2: %3 %4; %5</source>
        <translation>%1, %2: %3 %4; %5</translation>
    </message>
</context>
<context>
    <name>CalibrationText</name>
    <message>
        <source>Heard steadily for %1 s; known to %2 cent.</source>
        <translation>Seit %1 s stetig gehört; auf %2 Cent bekannt.</translation>
    </message>
    <message>
        <source>%1 That is sure enough: keep it.</source>
        <translation>%1 Das ist sicher genug: übernehmen.</translation>
    </message>
    <message>
        <source>%1 It grows surer as long as the tone goes on.</source>
        <translation>%1 Es wird sicherer, solange der Ton anhält.</translation>
    </message>
    <message>
        <source>%1%2 ± %3 ppm</source>
        <translation>%1%2 ± %3 ppm</translation>
    </message>
    <message>
        <source>Waiting for sound.</source>
        <translation>Warten auf Klang.</translation>
    </message>
    <message>
        <source>A steady tone near %1 Hz; five seconds are needed at least.</source>
        <translation>Ein stetiger Ton bei %1 Hz; mindestens fünf Sekunden sind nötig.</translation>
    </message>
    <message>
        <source>No steady tone near %1 Hz is heard: it is too soft, its loudness varies, or its pitch does. Bring it closer and keep the room quiet.</source>
        <translation>Kein stetiger Ton bei %1 Hz zu hören: er ist zu leise, oder Lautstärke oder Tonhöhe schwanken. Näher herangehen und für Ruhe im Raum sorgen.</translation>
    </message>
    <message>
        <source>%1 What was measured before stands.</source>
        <translation>%1 Was vorher gemessen wurde, gilt weiter.</translation>
    </message>
    <message>
        <source>Let the tone sound, then listen. Ten seconds give a first value; it grows surer as long as the tone goes on.</source>
        <translation>Den Ton erklingen lassen, dann hören. Zehn Sekunden geben einen ersten Wert; er wird sicherer, solange der Ton anhält.</translation>
    </message>
    <message>
        <source>The virtual instrument counts its own samples and has no clock that could be wrong. Choose the microphone that you tune with.</source>
        <translation>Das virtuelle Instrument zählt seine eigenen Abtastwerte und hat keine Uhr, die falsch gehen könnte. Das Mikrofon wählen, mit dem gestimmt wird.</translation>
    </message>
</context>
<context>
    <name>Core</name>
    <message>
        <source>%1 (invented)</source>
        <translation>%1 (erfunden)</translation>
    </message>
    <message>
        <source>the sound server does not answer: it is tried again; if this lasts, restart it</source>
        <translation>der Klangserver antwortet nicht: es wird wieder versucht; hält es an, den Klangserver neu starten</translation>
    </message>
    <message>
        <source>%1 is open again: waiting for its sound</source>
        <translation>%1 ist wieder offen: Warten auf Klang</translation>
    </message>
    <message>
        <source>%1 has fallen silent</source>
        <translation>%1 ist verstummt</translation>
    </message>
    <message>
        <source>no sound input is there: connect a microphone; it is taken as soon as it is found</source>
        <translation>kein Klangeingang da: ein Mikrofon anschließen; es wird genommen, sobald es gefunden ist</translation>
    </message>
    <message>
        <source>no sound output is there: connect a loudspeaker or headphones; they are taken as soon as found</source>
        <translation>kein Klangausgang da: Lautsprecher oder Kopfhörer anschließen; sie werden genommen, sobald sie gefunden sind</translation>
    </message>
    <message>
        <source>%1 is not there: connect it, or choose another; it is taken as soon as it is found</source>
        <translation>%1 ist nicht da: anschließen oder ein anderes Gerät wählen; es wird genommen, sobald es gefunden ist</translation>
    </message>
    <message>
        <source>%1 does not work at %2 Hz: choose another rate, such as %3</source>
        <translation>%1 arbeitet nicht mit %2 Hz: eine andere Rate wählen, etwa %3</translation>
    </message>
    <message>
        <source>%1 has %2 channels, number %3 was asked for: choose one it has</source>
        <translation>%1 hat %2 Kanäle, verlangt war Nummer %3: einen vorhandenen wählen</translation>
    </message>
    <message>
        <source>%1 does not open (%2): end other programs that may hold it, or choose another; it is tried again every second</source>
        <translation>%1 lässt sich nicht öffnen (%2): andere Programme beenden, die es festhalten könnten, oder ein anderes wählen; jede Sekunde ein neuer Versuch</translation>
    </message>
    <message>
        <source>%1 is gone: connect it again; it is looked for every second</source>
        <translation>%1 ist weg: wieder anschließen; es wird jede Sekunde gesucht</translation>
    </message>
    <message>
        <source>%1 gives no sound: it is opened again every second</source>
        <translation>%1 gibt keinen Klang: es wird jede Sekunde neu geöffnet</translation>
    </message>
    <message>
        <source>the sound system does not start (%1): check that sound works in other programs</source>
        <translation>das Klangsystem startet nicht (%1): prüfen, ob in anderen Programmen Klang zu hören ist</translation>
    </message>
    <message>
        <source>the sound system does not say which devices it has: the sound server may hang; restart it, or try again</source>
        <translation>das Klangsystem sagt nicht, welche Geräte es hat: der Klangserver hängt vielleicht; neu starten oder noch einmal versuchen</translation>
    </message>
    <message>
        <source>the analysis stopped by an internal fault (%1): start it again</source>
        <translation>die Analyse blieb durch einen inneren Fehler stehen (%1): neu beginnen</translation>
    </message>
    <message>
        <source>the sound is being kept already: end that recording first</source>
        <translation>der Klang wird schon aufgenommen: erst diese Aufnahme beenden</translation>
    </message>
    <message>
        <source>no sound is being kept: begin a recording first</source>
        <translation>es wird nichts aufgenommen: erst eine Aufnahme beginnen</translation>
    </message>
    <message>
        <source>the tone is heard at %1 Hz, %2 ppm from the trusted one; a clock errs by less than 1000 ppm: check which tone it is, and the rate of the device</source>
        <translation>der Ton ist bei %1 Hz zu hören, %2 ppm neben dem verlässlichen; eine Uhr geht um weniger als 1000 ppm falsch: prüfen, welcher Ton es ist, und die Rate des Geräts</translation>
    </message>
    <message>
        <source>it is too soft, its loudness varies, or it is not steady</source>
        <translation>er ist zu leise, seine Lautstärke schwankt, oder er ist nicht stetig</translation>
    </message>
    <message>
        <source>less than five seconds of sound</source>
        <translation>weniger als fünf Sekunden Klang</translation>
    </message>
    <message>
        <source>its loudness varies</source>
        <translation>seine Lautstärke schwankt</translation>
    </message>
    <message>
        <source>its pitch is not steady</source>
        <translation>seine Tonhöhe ist nicht stetig</translation>
    </message>
    <message>
        <source>no steady tone is heard near %1 Hz (%2): bring it closer, keep the room quiet, and hold it for ten seconds</source>
        <translation>kein stetiger Ton bei %1 Hz zu hören (%2): näher herangehen, für Ruhe im Raum sorgen und ihn zehn Sekunden halten</translation>
    </message>
    <message>
        <source>the recording stopped (%1); make room on the disk or choose another folder</source>
        <translation>die Aufnahme brach ab (%1); Platz auf dem Datenträger schaffen oder einen anderen Ordner wählen</translation>
    </message>
    <message>
        <source>the disk does not keep up</source>
        <translation>der Datenträger kommt nicht mit</translation>
    </message>
    <message>
        <source>a file of this name is there already: choose another</source>
        <translation>eine Datei dieses Namens gibt es schon: einen anderen wählen</translation>
    </message>
    <message>
        <source>the recording cannot be begun (%1): choose a folder that can be written to</source>
        <translation>die Aufnahme kann nicht beginnen (%1): einen beschreibbaren Ordner wählen</translation>
    </message>
    <message>
        <source>there is no such file; look at its path</source>
        <translation>diese Datei gibt es nicht; den Pfad prüfen</translation>
    </message>
    <message>
        <source>this is a folder, give a sound file</source>
        <translation>das ist ein Ordner; eine Klangdatei angeben</translation>
    </message>
    <message>
        <source>the file is empty</source>
        <translation>die Datei ist leer</translation>
    </message>
    <message>
        <source>not a sound file that can be read (%1): give WAV, FLAC, AIFF or Ogg</source>
        <translation>keine lesbare Klangdatei (%1): WAV, FLAC, AIFF oder Ogg angeben</translation>
    </message>
    <message>
        <source>its rate is %1 Hz: 8000 to 192000 Hz can be used</source>
        <translation>ihre Rate ist %1 Hz: verwendbar sind 8000 bis 192000 Hz</translation>
    </message>
    <message>
        <source>it is cut short: it holds less sound than its header says</source>
        <translation>sie ist abgeschnitten: sie enthält weniger Klang, als ihr Kopf angibt</translation>
    </message>
    <message>
        <source>it is cut short: %1 of %2 frames can be read</source>
        <translation>sie ist abgeschnitten: %1 von %2 Abtastwerten sind lesbar</translation>
    </message>
    <message>
        <source>it holds no sound</source>
        <translation>sie enthält keinen Klang</translation>
    </message>
    <message>
        <source>sample %1 is not a finite number: export the sound again</source>
        <translation>Abtastwert %1 ist keine endliche Zahl: den Klang neu ausgeben</translation>
    </message>
    <message>
        <source>not heard yet: %1; all twelve notes are needed</source>
        <translation>noch nicht gehört: %1; alle zwölf Töne werden gebraucht</translation>
    </message>
    <message>
        <source>fifths: %1 is %2 cents from pure, allowed is -100 to +100</source>
        <translation>Quinten: %1 liegt %2 Cent neben rein, erlaubt sind -100 bis +100</translation>
    </message>
    <message>
        <source>fifths: what is left for the last fifth, %1, is %2 cents from pure, allowed is -100 to +100</source>
        <translation>Quinten: für die letzte Quinte, %1, bleiben %2 Cent neben rein, erlaubt sind -100 bis +100</translation>
    </message>
    <message>
        <source>fifths: the circle does not close, it is open by %1 cents (the twelve temperings have to add up to -23.460); change a fifth by as much, or leave the last one out</source>
        <translation>Quinten: der Zirkel schließt nicht, er ist um %1 Cent offen (die zwölf Temperierungen müssen zusammen -23,460 ergeben); eine Quinte um so viel ändern oder die letzte weglassen</translation>
    </message>
    <message>
        <source>notes: only a regular temperament, whose fifths are all alike, goes on beyond its twelve notes; &apos;%1&apos; is not one</source>
        <translation>Töne: nur eine regelmäßige Temperatur mit lauter gleichen Quinten geht über ihre zwölf Töne hinaus; „%1“ ist keine</translation>
    </message>
    <message>
        <source>&apos;%1&apos; is not the tempering of a fifth: write 0 (pure), fractions of a comma such as -1/4S (syntonic), -1/6P (Pythagorean) or -1P+11/4S, a ratio such as 392/393, or cents such as -5.38c, together within -100 to +100 cents</source>
        <translation>„%1“ ist keine Temperierung einer Quinte: 0 schreiben (rein), Bruchteile eines Kommas wie -1/4S (syntonisch), -1/6P (pythagoreisch) oder -1P+11/4S, ein Verhältnis wie 392/393 oder Cent wie -5,38c, zusammen innerhalb -100 bis +100 Cent</translation>
    </message>
    <message>
        <source>the octave from %1 is not whole on this compass; choose C3 or F3 as its lowest key</source>
        <translation>die Oktave ab %1 ist in diesem Tonumfang nicht vollständig; C3 (c) oder F3 (f) als tiefste Taste wählen</translation>
    </message>
    <message>
        <source>the reference choir cannot be left alone; choose another reference</source>
        <translation>der Bezugschor kann nicht ausgelassen werden; einen anderen Bezug wählen</translation>
    </message>
    <message>
        <source>no row of jacks plucks the %1; leave that choir alone or give it a register</source>
        <translation>keine Springerreihe reißt %1 an; diesen Chor auslassen oder ihm ein Register geben</translation>
    </message>
    <message>
        <source>the keyboard has no position %1</source>
        <translation>die Klaviatur hat keine Stellung %1</translation>
    </message>
    <message>
        <source>no such file; look at its path</source>
        <translation>keine solche Datei; den Pfad prüfen</translation>
    </message>
    <message>
        <source>not a regular file; give one</source>
        <translation>keine gewöhnliche Datei; eine solche angeben</translation>
    </message>
    <message>
        <source>larger than %1 MiB, which no file of ours is; give another</source>
        <translation>größer als %1 MiB, was keine unserer Dateien ist; eine andere angeben</translation>
    </message>
    <message>
        <source>cannot be read (%1); look at its permissions</source>
        <translation>nicht lesbar (%1); die Zugriffsrechte prüfen</translation>
    </message>
    <message>
        <source>cannot be written (%1); choose a folder that may be written, with room on its disk</source>
        <translation>nicht beschreibbar (%1); einen beschreibbaren Ordner mit freiem Platz wählen</translation>
    </message>
    <message>
        <source>cannot be replaced (%1); look at the permissions of its folder</source>
        <translation>nicht ersetzbar (%1); die Zugriffsrechte des Ordners prüfen</translation>
    </message>
    <message>
        <source>no such file, nor an example (%1)</source>
        <translation>weder eine solche Datei noch ein Beispiel (%1)</translation>
    </message>
    <message>
        <source>larger than %1 MiB, which no such file is</source>
        <translation>größer als %1 MiB, was keine solche Datei ist</translation>
    </message>
    <message>
        <source>larger than %1 MiB, which no such list is</source>
        <translation>größer als %1 MiB, was keine solche Liste ist</translation>
    </message>
    <message>
        <source>not JSON at line %1: look there for a missing comma, quote or bracket</source>
        <translation>kein JSON in Zeile %1: dort nach einem fehlenden Komma, Anführungszeichen oder einer Klammer sehen</translation>
    </message>
    <message>
        <source>the list is empty: the first row names the columns, choir and key at least</source>
        <translation>die Liste ist leer: die erste Zeile nennt die Spalten, mindestens choir und key</translation>
    </message>
    <message>
        <source>no CSV file in it; give the folder of an export</source>
        <translation>keine CSV-Datei darin; den Ordner einer Ausgabe angeben</translation>
    </message>
    <message>
        <source>empty; give an export of the logbook</source>
        <translation>leer; eine Ausgabe des Logbuchs angeben</translation>
    </message>
    <message>
        <source>an event of schema %1: this version knows %2; go on with the version that began the session</source>
        <translation>ein Ereignis des Schemas %1: diese Version kennt %2; mit der Version fortfahren, die die Sitzung begann</translation>
    </message>
    <message>
        <source>another program is writing to this logbook; try again in a moment</source>
        <translation>ein anderes Programm schreibt gerade in dieses Logbuch; gleich noch einmal versuchen</translation>
    </message>
    <message>
        <source>the disk is full; free some space, nothing kept before is lost</source>
        <translation>der Datenträger ist voll; Platz schaffen, nichts früher Festgehaltenes ist verloren</translation>
    </message>
    <message>
        <source>cannot be written; give it write permission or name another file</source>
        <translation>nicht beschreibbar; Schreibrecht geben oder eine andere Datei nennen</translation>
    </message>
    <message>
        <source>cannot be opened; look whether its folder is there and may be used</source>
        <translation>lässt sich nicht öffnen; nachsehen, ob der Ordner da und zugänglich ist</translation>
    </message>
    <message>
        <source>the disk does not answer (%1); look whether it is still there</source>
        <translation>der Datenträger antwortet nicht (%1); nachsehen, ob er noch da ist</translation>
    </message>
    <message>
        <source>the logbook refused (%1)</source>
        <translation>das Logbuch verweigerte (%1)</translation>
    </message>
    <message>
        <source>damaged, or no logbook (%1); &apos;quillbench-cli log repair&apos; saves what can be read</source>
        <translation>beschädigt oder kein Logbuch (%1); „quillbench-cli log repair“ rettet, was lesbar ist</translation>
    </message>
    <message>
        <source>damaged (%1), opened for reading only; &apos;quillbench-cli log repair&apos; saves what can be read</source>
        <translation>beschädigt (%1), nur zum Lesen geöffnet; „quillbench-cli log repair“ rettet, was lesbar ist</translation>
    </message>
    <message>
        <source>the power went or the disk erred while it was written: last entries that were not acknowledged may be missing</source>
        <translation>beim Schreiben fiel der Strom aus oder der Datenträger machte Fehler: letzte, noch nicht bestätigte Einträge fehlen vielleicht</translation>
    </message>
    <message>
        <source>cannot be written, opened for reading only; give it and its folder write permission, or name another file</source>
        <translation>nicht beschreibbar, nur zum Lesen geöffnet; der Datei und ihrem Ordner Schreibrecht geben oder eine andere Datei nennen</translation>
    </message>
    <message>
        <source>another window has gone on with this session; close one of them</source>
        <translation>ein anderes Fenster hat diese Sitzung fortgesetzt; eines davon schließen</translation>
    </message>
    <message>
        <source>a folder; name a file in it</source>
        <translation>ein Ordner; eine Datei darin nennen</translation>
    </message>
    <message>
        <source>there is no such logbook; look at its path</source>
        <translation>dieses Logbuch gibt es nicht; den Pfad prüfen</translation>
    </message>
    <message>
        <source>its folder cannot be made (%1); name another file</source>
        <translation>der Ordner lässt sich nicht anlegen (%1); eine andere Datei nennen</translation>
    </message>
    <message>
        <source>its head does not agree with its tables</source>
        <translation>der Kopf stimmt nicht mit den Tabellen überein</translation>
    </message>
    <message>
        <source>not a logbook of Quillbench; name another file</source>
        <translation>kein Logbuch von Quillbench; eine andere Datei nennen</translation>
    </message>
    <message>
        <source>written by a newer version of Quillbench (schema %1, this one knows up to %2); use that version</source>
        <translation>von einer neueren Version von Quillbench geschrieben (Schema %1, diese kennt bis %2); jene Version benutzen</translation>
    </message>
    <message>
        <source>its structure cannot be read</source>
        <translation>der Aufbau ist nicht lesbar</translation>
    </message>
    <message>
        <source>its tables are not those of a logbook</source>
        <translation>die Tabellen sind nicht die eines Logbuchs</translation>
    </message>
    <message>
        <source>its tables are not those of its schema</source>
        <translation>die Tabellen sind nicht die ihres Schemas</translation>
    </message>
    <message>
        <source>is there already; give another name</source>
        <translation>gibt es schon; einen anderen Namen angeben</translation>
    </message>
    <message>
        <source>the copy is not what was copied; try again</source>
        <translation>die Kopie gleicht nicht dem Original; noch einmal versuchen</translation>
    </message>
    <message>
        <source>cannot be written (%1); choose another place</source>
        <translation>nicht beschreibbar (%1); einen anderen Ort wählen</translation>
    </message>
    <message>
        <source>nothing of it can be read; &apos;quillbench-cli log restore BACKUP&apos; puts a backup in its place</source>
        <translation>nichts davon ist lesbar; „quillbench-cli log restore BACKUP“ setzt eine Sicherung an die Stelle</translation>
    </message>
    <message>
        <source>nothing of it can be read</source>
        <translation>nichts davon ist lesbar</translation>
    </message>
    <message>
        <source>there is no home folder to keep the logbook in; name a file with --logbook</source>
        <translation>es gibt keinen persönlichen Ordner für das Logbuch</translation>
    </message>
    <message>
        <source>Two-manual 8′ 8′ 4′ (invented example)</source>
        <translation>Zweimanualig 8′ 8′ 4′ (erfundenes Beispiel)</translation>
    </message>
    <message>
        <source>Single 8′ 8′, brass, shifts from 415 to 440 (invented example)</source>
        <translation>Einmanualig 8′ 8′, Messing, verschiebbar von 415 auf 440 (erfundenes Beispiel)</translation>
    </message>
    <message>
        <source>Single 8′ 4′, short octave GG/BB (invented example)</source>
        <translation>Einmanualig 8′ 4′, kurze Oktave GG/HH (erfundenes Beispiel)</translation>
    </message>
    <message>
        <source>Two-manual 16′ 8′ 8′ 4′ with lute (invented example)</source>
        <translation>Zweimanualig 16′ 8′ 8′ 4′ mit Nasal (erfundenes Beispiel)</translation>
    </message>
    <message>
        <source>Bentside spinet, one 8′ (invented example)</source>
        <translation>Querspinett, ein 8′ (erfundenes Beispiel)</translation>
    </message>
    <message>
        <source>Virginal, short octave C/E, brass (invented example)</source>
        <translation>Virginal, kurze Oktave C/E, Messing (erfundenes Beispiel)</translation>
    </message>
    <message>
        <source>back 8′</source>
        <translation>hinterer 8′</translation>
    </message>
    <message>
        <source>front 8′</source>
        <translation>vorderer 8′</translation>
    </message>
    <message>
        <source>lute (front 8′ at the nut)</source>
        <translation>Nasal (vorderer 8′ am Stimmstocksteg)</translation>
    </message>
    <message>
        <source>lower</source>
        <translation>unteres</translation>
    </message>
    <message>
        <source>upper</source>
        <translation>oberes</translation>
    </message>
    <message>
        <source>single</source>
        <translation>einziges</translation>
    </message>
    <message>
        <source>short C/E</source>
        <translation>kurz C/E</translation>
    </message>
    <message>
        <source>short GG/BB</source>
        <translation>kurz GG/HH</translation>
    </message>
    <message>
        <source>broken C/E</source>
        <translation>gebrochen C/E</translation>
    </message>
    <message>
        <source>chromatic</source>
        <translation>chromatisch</translation>
    </message>
    <message>
        <source>soft iron (historical kind)</source>
        <translation>weiches Eisen (historische Art)</translation>
    </message>
    <message>
        <source>steel (music wire)</source>
        <translation>Stahl (Klaviersaitendraht)</translation>
    </message>
    <message>
        <source>yellow brass (CuZn30)</source>
        <translation>Gelbmessing (CuZn30)</translation>
    </message>
    <message>
        <source>red brass (CuZn15)</source>
        <translation>Rotmessing (CuZn15)</translation>
    </message>
    <message>
        <source>red brass (CuZn10)</source>
        <translation>Rotmessing (CuZn10)</translation>
    </message>
    <message>
        <source>phosphor bronze (CuSn8)</source>
        <translation>Phosphorbronze (CuSn8)</translation>
    </message>
    <message>
        <source>sterling silver (Ag925)</source>
        <translation>Sterlingsilber (Ag925)</translation>
    </message>
    <message>
        <source>beats are easily heard up to here</source>
        <translation>bis hierher sind Schwebungen leicht zu hören</translation>
    </message>
    <message>
        <source>fastest that is counted without help</source>
        <translation>die schnellsten, die ohne Hilfe gezählt werden</translation>
    </message>
    <message>
        <source>direction told without moving the pin (fifths and major thirds)</source>
        <translation>Richtung ohne Drehen am Wirbel erkannt (Quinten und große Terzen)</translation>
    </message>
    <message>
        <source>slower ones are hidden while the strings die away</source>
        <translation>langsamere gehen unter, während die Saiten verklingen</translation>
    </message>
    <message>
        <source>a third&apos;s own beat wanders so much within a note (piano)</source>
        <translation>so weit wandert die Schwebung einer Terz innerhalb eines Tons (Klavier)</translation>
    </message>
    <message>
        <source>sequences of clicks, six intervals to one</source>
        <translation>Folgen von Klicks, sechs Abstände gegen einen</translation>
    </message>
    <message>
        <source>clicks, fewer than 20 a second</source>
        <translation>Klicks, weniger als 20 in der Sekunde</translation>
    </message>
    <message>
        <source>value from memory</source>
        <translation>Wert aus dem Gedächtnis</translation>
    </message>
    <message>
        <source>common practice, no source</source>
        <translation>allgemeiner Brauch, ohne Quelle</translation>
    </message>
    <message>
        <source>%1; common practice (read)</source>
        <translation>%1; allgemeiner Brauch (gelesen)</translation>
    </message>
    <message>
        <source>%1; common practice</source>
        <translation>%1; allgemeiner Brauch</translation>
    </message>
    <message>
        <source>%1 (read)</source>
        <translation>%1 (gelesen)</translation>
    </message>
    <message>
        <source>Equal temperament from F-A</source>
        <translation>Gleichstufig von F-A aus</translation>
    </message>
    <message>
        <source>Quarter-comma meantone from C</source>
        <translation>Viertelkomma-mitteltönig von C aus</translation>
    </message>
    <message>
        <source>Kirnberger III from C</source>
        <translation>Kirnberger III von C aus</translation>
    </message>
    <message>
        <source>Vallotti from F-A</source>
        <translation>Vallotti von F-A aus</translation>
    </message>
    <message>
        <source>Lehman from F-A</source>
        <translation>Lehman von F-A aus</translation>
    </message>
    <message>
        <source>Any regular meantone by halving</source>
        <translation>Jede regelmäßige Mitteltönigkeit durch Halbieren</translation>
    </message>
    <message>
        <source>Lambert from F-A</source>
        <translation>Lambert von F-A aus</translation>
    </message>
    <message>
        <source>Dom Bedos from C</source>
        <translation>Dom Bedos von C aus</translation>
    </message>
    <message>
        <source>D&apos;Alembert with his three proofs</source>
        <translation>D&apos;Alembert mit seinen drei Proben</translation>
    </message>
    <message>
        <source>Equal temperament</source>
        <translation>Gleichstufig</translation>
    </message>
    <message>
        <source>Pythagorean, wolf G♯–E♭</source>
        <translation>Pythagoreisch, Wolf Gis–Es</translation>
    </message>
    <message>
        <source>Quarter-comma meantone</source>
        <translation>Viertelkomma-mitteltönig</translation>
    </message>
    <message>
        <source>Two-sevenths-comma meantone</source>
        <translation>Zweisiebtelkomma-mitteltönig</translation>
    </message>
    <message>
        <source>Third-comma meantone</source>
        <translation>Drittelkomma-mitteltönig</translation>
    </message>
    <message>
        <source>Two-ninths-comma meantone</source>
        <translation>Zweineuntelkomma-mitteltönig</translation>
    </message>
    <message>
        <source>Fifth-comma meantone</source>
        <translation>Fünftelkomma-mitteltönig</translation>
    </message>
    <message>
        <source>Sixth-comma meantone (syntonic)</source>
        <translation>Sechstelkomma-mitteltönig (syntonisch)</translation>
    </message>
    <message>
        <source>Silbermann, sixth of the Pythagorean comma</source>
        <translation>Silbermann, Sechstel des pythagoreischen Kommas</translation>
    </message>
    <message>
        <source>Werckmeister VI Septenarius, D at 176</source>
        <translation>Werckmeister VI Septenarius, D bei 176</translation>
    </message>
    <message>
        <source>Werckmeister VI Septenarius, D at 175</source>
        <translation>Werckmeister VI Septenarius, D bei 175</translation>
    </message>
    <message>
        <source>Kirnberger III, unequal reading</source>
        <translation>Kirnberger III, ungleiche Lesart</translation>
    </message>
    <message>
        <source>Vallotti as in his treatise</source>
        <translation>Vallotti nach seinem Traktat</translation>
    </message>
    <message>
        <source>Young I, simplified</source>
        <translation>Young I, vereinfacht</translation>
    </message>
    <message>
        <source>Marpurg 1790, no. 6</source>
        <translation>Marpurg 1790, Nr. 6</translation>
    </message>
    <message>
        <source>Rameau 1726, from B♭</source>
        <translation>Rameau 1726, von B aus</translation>
    </message>
    <message>
        <source>Rameau 1726, from C</source>
        <translation>Rameau 1726, von C aus</translation>
    </message>
    <message>
        <source>Schlick, reconstruction by Barbour</source>
        <translation>Schlick, Rekonstruktion von Barbour</translation>
    </message>
    <message>
        <source>Schlick, reconstruction by Tessmer</source>
        <translation>Schlick, Rekonstruktion von Tessmer</translation>
    </message>
    <message>
        <source>Schlick, reconstruction by Lange</source>
        <translation>Schlick, Rekonstruktion von Lange</translation>
    </message>
    <message>
        <source>Ramos de Pareja, monochord</source>
        <translation>Ramos de Pareja, Monochord</translation>
    </message>
    <message>
        <source>Fogliano, first</source>
        <translation>Fogliano, erste</translation>
    </message>
    <message>
        <source>Fogliano, second</source>
        <translation>Fogliano, zweite</translation>
    </message>
    <message>
        <source>1584 onwards</source>
        <translation>ab 1584</translation>
    </message>
    <message>
        <source>medieval</source>
        <translation>mittelalterlich</translation>
    </message>
    <message>
        <source>17th century</source>
        <translation>17. Jahrhundert</translation>
    </message>
    <message>
        <source>18th century</source>
        <translation>18. Jahrhundert</translation>
    </message>
    <message>
        <source>20th century</source>
        <translation>20. Jahrhundert</translation>
    </message>
    <message>
        <source>about 1690</source>
        <translation>um 1690</translation>
    </message>
    <message>
        <source>about 1715 to 1748</source>
        <translation>etwa 1715 bis 1748</translation>
    </message>
    <message>
        <source>about 1728, edited 1950</source>
        <translation>um 1728, herausgegeben 1950</translation>
    </message>
    <message>
        <source>about 1728, published 1779; this form 20th century</source>
        <translation>um 1728, gedruckt 1779; diese Form 20. Jahrhundert</translation>
    </message>
    <message>
        <source>1691, D corrected in modern times</source>
        <translation>1691, D in neuerer Zeit berichtigt</translation>
    </message>
    <message>
        <source>1779, printed 1871</source>
        <translation>1779, gedruckt 1871</translation>
    </message>
    <message>
        <source>1724 and 1732</source>
        <translation>1724 und 1732</translation>
    </message>
    <message>
        <source>1752 and 1767</source>
        <translation>1752 und 1767</translation>
    </message>
    <message>
        <source>1800 to 1807</source>
        <translation>1800 bis 1807</translation>
    </message>
    <message>
        <source>1975 to 1977</source>
        <translation>1975 bis 1977</translation>
    </message>
    <message>
        <source>manuscript 1786, published 1987</source>
        <translation>Handschrift 1786, herausgegeben 1987</translation>
    </message>
    <message>
        <source>Arithmetic: each fifth is narrow by a twelfth of the Pythagorean comma.</source>
        <translation>Rechnung: jede Quinte ist um ein Zwölftel des pythagoreischen Kommas eng.</translation>
    </message>
    <message>
        <source>Arithmetic; placing of the chain seen in a text that quotes Ratte 1991.</source>
        <translation>Rechnung; Lage der Kette in einem Text gesehen, der Ratte 1991 zitiert.</translation>
    </message>
    <message>
        <source>Definition from memory.</source>
        <translation>Definition aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>Definition seen in text.</source>
        <translation>Definition in einem Text gesehen.</translation>
    </message>
    <message>
        <source>Definition seen in encyclopedia text.</source>
        <translation>Definition in einem Lexikontext gesehen.</translation>
    </message>
    <message>
        <source>Definition seen in encyclopedia text; which fifth carries the schisma from memory (G♯–E♭).</source>
        <translation>Definition in einem Lexikontext gesehen; welche Quinte das Schisma trägt, aus dem Gedächtnis (Gis–Es).</translation>
    </message>
    <message>
        <source>Fifth 696.578 cents and the open 41.059 cents seen in encyclopedia text.</source>
        <translation>Quinte 696,578 Cent und die offenen 41,059 Cent in einem Lexikontext gesehen.</translation>
    </message>
    <message>
        <source>Cents rounded to integers seen in a reference table.</source>
        <translation>Auf ganze Cent gerundet in einer Tabelle gesehen.</translation>
    </message>
    <message>
        <source>Cents rounded to integers seen in text.</source>
        <translation>Auf ganze Cent gerundet in einem Text gesehen.</translation>
    </message>
    <message>
        <source>Cents to six places seen in text.</source>
        <translation>Cent auf sechs Stellen in einem Text gesehen.</translation>
    </message>
    <message>
        <source>The first four notes (0, 96, 204, 300) seen in a reference table, the rest from memory.</source>
        <translation>Die ersten vier Töne (0, 96, 204, 300) in einer Tabelle gesehen, der Rest aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>String lengths seen in T. Dent&apos;s page on the Septenarius.</source>
        <translation>Saitenlängen auf T. Dents Seite über den Septenarius gesehen.</translation>
    </message>
    <message>
        <source>Cents to three places seen in correspondence on the Septenarius.</source>
        <translation>Cent auf drei Stellen in einem Briefwechsel über den Septenarius gesehen.</translation>
    </message>
    <message>
        <source>Fifth D–A as 40:27 seen in text; its schisma on F♯–C♯.</source>
        <translation>Quinte D–A als 40:27 in einem Text gesehen; ihr Schisma auf Fis–Cis.</translation>
    </message>
    <message>
        <source>From memory of Barbour&apos;s table.</source>
        <translation>Aus dem Gedächtnis nach Barbours Tabelle.</translation>
    </message>
    <message>
        <source>From memory of Barbour&apos;s table; a text agrees that the fifth between the two narrow ones is pure.</source>
        <translation>Aus dem Gedächtnis nach Barbours Tabelle; ein Text bestätigt, dass die Quinte zwischen den beiden engen rein ist.</translation>
    </message>
    <message>
        <source>From memory of Barbour&apos;s table; C–E pure, G–D–A–E in three equal parts, E–G♯–C in two.</source>
        <translation>Aus dem Gedächtnis nach Barbours Tabelle; C–E rein, G–D–A–E in drei gleichen Teilen, E–Gis–C in zweien.</translation>
    </message>
    <message>
        <source>From memory; D 9/8 and B♭ 9/5.</source>
        <translation>Aus dem Gedächtnis; D 9/8 und B 9/5.</translation>
    </message>
    <message>
        <source>Fifths and integer cents seen in a text that quotes Dupont 1935.</source>
        <translation>Quinten und ganze Cent in einem Text gesehen, der Dupont 1935 zitiert.</translation>
    </message>
    <message>
        <source>Fifths derived from the printed monochord, seen in text.</source>
        <translation>Quinten aus dem gedruckten Monochord abgeleitet, in einem Text gesehen.</translation>
    </message>
    <message>
        <source>The four social labels seen in text; that Hof is equal temperament from memory.</source>
        <translation>Die vier Bezeichnungen in einem Text gesehen; dass „Hof“ gleichstufig ist, aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>Third 391.69, fifths 697.92 and 700.12 seen in encyclopedia text.</source>
        <translation>Terz 391,69, Quinten 697,92 und 700,12 in einem Lexikontext gesehen.</translation>
    </message>
    <message>
        <source>Seen in text as a common misreading.</source>
        <translation>In einem Text als häufige Fehldeutung gesehen.</translation>
    </message>
    <message>
        <source>Offsets from equal to a tenth of a cent seen in correspondence of 1995.</source>
        <translation>Abweichungen von gleichstufig auf ein Zehntelcent in einem Briefwechsel von 1995 gesehen.</translation>
    </message>
    <message>
        <source>Offsets from equal to a tenth of a cent seen in text.</source>
        <translation>Abweichungen von gleichstufig auf ein Zehntelcent in einem Text gesehen.</translation>
    </message>
    <message>
        <source>E♭–G verified, the rest from memory.</source>
        <translation>Es–G geprüft, der Rest aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>Printed monochord seen in text; the fifths F♯–C♯ and B♭–F follow from its lengths.</source>
        <translation>Gedrucktes Monochord in einem Text gesehen; die Quinten Fis–Cis und B–F folgen aus seinen Längen.</translation>
    </message>
    <message>
        <source>Quotation seen in text.</source>
        <translation>Zitat in einem Text gesehen.</translation>
    </message>
    <message>
        <source>Rameau&apos;s words seen in text; the numbers from memory of Barbour.</source>
        <translation>Rameaus Worte in einem Text gesehen; die Zahlen aus dem Gedächtnis nach Barbour.</translation>
    </message>
    <message>
        <source>The reading seen in correspondence.</source>
        <translation>Die Lesart in einem Briefwechsel gesehen.</translation>
    </message>
    <message>
        <source>The words seen in text; the numbers are a modern idealisation.</source>
        <translation>Die Worte in einem Text gesehen; die Zahlen sind eine neuere Idealisierung.</translation>
    </message>
    <message>
        <source>That the comma is divided in seven seen in text; the place F to F♯ from memory.</source>
        <translation>Dass das Komma in sieben geteilt wird, in einem Text gesehen; die Lage F bis Fis aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>Seen in a text that quotes Lange 1968.</source>
        <translation>In einem Text gesehen, der Lange 1968 zitiert.</translation>
    </message>
    <message>
        <source>C♯–G♯ about 9 and G♯–D♯ about 2 cents wide seen in text.</source>
        <translation>Cis–Gis etwa 9 und Gis–Dis etwa 2 Cent weit, in einem Text gesehen.</translation>
    </message>
    <message>
        <source>Ten equal fifths, A♭–E♭ wide by as much, wolf at D♭–A♭, seen in text.</source>
        <translation>Zehn gleiche Quinten, As–Es um ebenso viel weit, Wolf bei Des–As, in einem Text gesehen.</translation>
    </message>
    <message>
        <source>How much it was used on organs and harpsichords before the 19th century is disputed.</source>
        <translation>Wie viel sie vor dem 19. Jahrhundert auf Orgeln und Cembali gebraucht wurde, ist umstritten.</translation>
    </message>
    <message>
        <source>Arnaut de Zwolle (about 1440) has the wolf at B–F♯ (Meister 1991).</source>
        <translation>Arnaut de Zwolle (um 1440) hat den Wolf bei H–Fis (Meister 1991).</translation>
    </message>
    <message>
        <source>Whether Aron meant an exact quarter comma for every fifth is debated: only his first four are explicit (Lindley).</source>
        <translation>Ob Aron für jede Quinte genau ein Viertelkomma meinte, ist umstritten: nur die ersten vier sind ausdrücklich genannt (Lindley).</translation>
    </message>
    <message>
        <source>Sorge writes of a sixth of a comma without saying which. Barbour and German writers take the Pythagorean (wolf wide by 19.55 cents), others the syntonic; Ortgies doubts that any exact value was meant.</source>
        <translation>Sorge schreibt von einem Sechstel eines Kommas, ohne zu sagen, welches. Barbour und deutsche Autoren nehmen das pythagoreische (Wolf um 19,55 Cent weit), andere das syntonische; Ortgies bezweifelt, dass ein genauer Wert gemeint war.</translation>
    </message>
    <message>
        <source>Werckmeister left open which comma he divides; with the syntonic comma a schisma remains over.</source>
        <translation>Werckmeister ließ offen, welches Komma er teilt; mit dem syntonischen bleibt ein Schisma übrig.</translation>
    </message>
    <message>
        <source>D at 176 as printed makes G–D narrow by more than half a comma and is thought a misprint for 175.</source>
        <translation>D bei 176, wie gedruckt, macht G–D um mehr als ein halbes Komma eng und gilt als Druckfehler für 175.</translation>
    </message>
    <message>
        <source>Printed is 176 for D; 175 is the usual correction.</source>
        <translation>Gedruckt ist 176 für D; 175 ist die übliche Berichtigung.</translation>
    </message>
    <message>
        <source>Kirnberger printed A as 161/270, the half comma in whole numbers.</source>
        <translation>Kirnberger druckte A als 161/270, das halbe Komma in ganzen Zahlen.</translation>
    </message>
    <message>
        <source>The same scheme stands in Sorge 1744 (Meister 1991). The letter can also be read unequally: see kirnberger-3-unequal.</source>
        <translation>Dasselbe Schema steht bei Sorge 1744 (Meister 1991). Der Brief lässt sich auch ungleich lesen: siehe Kirnberger III, ungleiche Lesart.</translation>
    </message>
    <message>
        <source>A second reading of the same letter.</source>
        <translation>Eine zweite Lesart desselben Briefs.</translation>
    </message>
    <message>
        <source>In 1732 Neidhardt moved the labels up by one: the village of 1724 is the small town of 1732.</source>
        <translation>1732 verschob Neidhardt die Bezeichnungen um eine: das Dorf von 1724 ist die kleine Stadt von 1732.</translation>
    </message>
    <message>
        <source>In 1732 it is the large town.</source>
        <translation>1732 ist es die große Stadt.</translation>
    </message>
    <message>
        <source>F♯ is printed as 1420.48, 0.17 cent from what the fifths give.</source>
        <translation>Fis ist als 1420,48 gedruckt, 0,17 Cent neben dem, was die Quinten ergeben.</translation>
    </message>
    <message>
        <source>The same sizes as equal temperament.</source>
        <translation>Dieselben Größen wie gleichstufig.</translation>
    </message>
    <message>
        <source>Vallotti himself wrote six sixths of the syntonic comma with a schisma on one more fifth (Barbieri); the form with the Pythagorean comma is not in his text: see vallotti-treatise.</source>
        <translation>Vallotti selbst schrieb sechs Sechstel des syntonischen Kommas mit einem Schisma auf einer weiteren Quinte (Barbieri); die Form mit dem pythagoreischen Komma steht nicht in seinem Text: siehe Vallotti nach seinem Traktat.</translation>
    </message>
    <message>
        <source>Which fifth carries the schisma.</source>
        <translation>Welche Quinte das Schisma trägt.</translation>
    </message>
    <message>
        <source>Often made simpler as sixths and twelfths of the Pythagorean comma, which differs by less than 0.4 cent: see young-1-simplified.</source>
        <translation>Oft vereinfacht zu Sechsteln und Zwölfteln des pythagoreischen Kommas, was um weniger als 0,4 Cent abweicht: siehe Young I, vereinfacht.</translation>
    </message>
    <message>
        <source>Not what Young wrote.</source>
        <translation>Nicht, was Young schrieb.</translation>
    </message>
    <message>
        <source>Kellner&apos;s printed fifth 697.28 and third 389.11 come from x⁴ + 2x − 8 = 0 (C–G and C–E beat alike); fifths of the comma give 697.26 and 389.05. That it is Bach&apos;s is disputed.</source>
        <translation>Kellners gedruckte Quinte 697,28 und Terz 389,11 stammen aus x⁴ + 2x − 8 = 0 (C–G und C–E schweben gleich); Fünftel des Kommas geben 697,26 und 389,05. Dass es Bachs Temperatur sei, ist umstritten.</translation>
    </message>
    <message>
        <source>That it is Bach&apos;s is disputed.</source>
        <translation>Dass es Bachs Temperatur sei, ist umstritten.</translation>
    </message>
    <message>
        <source>The historical claim is widely disputed.</source>
        <translation>Der historische Anspruch ist weithin umstritten.</translation>
    </message>
    <message>
        <source>Commentary on the passage says E–B and B♭–F; the words quoted from Marpurg are B–F♯ and B♭–F.</source>
        <translation>Ein Kommentar zur Stelle sagt E–H und B–F; die von Marpurg zitierten Worte sind H–Fis und B–F.</translation>
    </message>
    <message>
        <source>Rameau gives words only: seven fifths from B♭ weak by a quarter comma, then gradually juster, the last two a little too wide.</source>
        <translation>Rameau gibt nur Worte: sieben Quinten von B aus um ein Viertelkomma schwächer, dann allmählich reiner, die letzten beiden etwas zu weit.</translation>
    </message>
    <message>
        <source>Rameau gives words only; this takes his other starting note.</source>
        <translation>Rameau gibt nur Worte; dies nimmt seinen anderen Anfangston.</translation>
    </message>
    <message>
        <source>The texts describe fifths that change gradually, not three equal groups.</source>
        <translation>Die Texte beschreiben Quinten, die sich allmählich ändern, nicht drei gleiche Gruppen.</translation>
    </message>
    <message>
        <source>Schlick gives words only; see the other reconstructions.</source>
        <translation>Schlick gibt nur Worte; siehe die anderen Rekonstruktionen.</translation>
    </message>
    <message>
        <source>Lange first (1968) took 3/16 of the syntonic comma. Schlick gives words only.</source>
        <translation>Lange nahm zuerst (1968) 3/16 des syntonischen Kommas. Schlick gibt nur Worte.</translation>
    </message>
    <message>
        <source>Fogliano ends by taking the mean of his two D&apos;s, which is no ratio of whole numbers.</source>
        <translation>Fogliano nimmt am Ende das Mittel seiner beiden D, das kein Verhältnis ganzer Zahlen ist.</translation>
    </message>
    <message>
        <source>the default %1</source>
        <translation>%1 (Standard)</translation>
    </message>
    <message>
        <source>the %1 &apos;%2&apos;</source>
        <translation>%1 „%2“</translation>
    </message>
    <message>
        <source>sound input</source>
        <translation>Klangeingang</translation>
    </message>
    <message>
        <source>sound output</source>
        <translation>Klangausgang</translation>
    </message>
    <message>
        <source>no temperament &apos;%1&apos;: %2; or give a temperament file (.json)</source>
        <translation>keine Temperatur „%1“: %2; oder eine Temperaturdatei (.json) angeben</translation>
    </message>
    <message>
        <source>&apos;quillbench-cli temperament&apos; lists them all</source>
        <translation>„quillbench-cli temperament“ nennt alle</translation>
    </message>
    <message>
        <source>perhaps %1</source>
        <translation>vielleicht %1</translation>
    </message>
    <message>
        <source>Zhu Zaiyu 1584; Stevin, manuscript about 1600; Neidhardt 1724 as &quot;Hof&quot;</source>
        <translation>Zhu Zaiyu 1584; Stevin, Handschrift um 1600; Neidhardt 1724 als „Hof“</translation>
    </message>
    <message>
        <source>Boethius and after; chain E♭–G♯ is the fifth type in Ratte 1991</source>
        <translation>Boethius und später; die Kette Es–Gis ist der fünfte Typ bei Ratte 1991</translation>
    </message>
    <message>
        <source>Aron, Toscanello in musica; exact sizes in Zarlino 1571 and Salinas 1577</source>
        <translation>Aron, Toscanello in musica; genaue Größen bei Zarlino 1571 und Salinas 1577</translation>
    </message>
    <message>
        <source>Verheijen about 1600; Rossi 1666; Sauveur 1701</source>
        <translation>Verheijen um 1600; Rossi 1666; Sauveur 1701</translation>
    </message>
    <message>
        <source>mentioned by Salinas; close to the 55 parts of Tosi and Telemann</source>
        <translation>von Salinas erwähnt; nahe den 55 Teilen von Tosi und Telemann</translation>
    </message>
    <message>
        <source>Sorge 1744 and 1748 on Gottfried Silbermann</source>
        <translation>Sorge 1744 und 1748 über Gottfried Silbermann</translation>
    </message>
    <message>
        <source>Werckmeister, Musicalische Temperatur, first correct temperament</source>
        <translation>Werckmeister, Musicalische Temperatur, erste richtige Temperatur</translation>
    </message>
    <message>
        <source>Werckmeister, Musicalische Temperatur, second correct temperament</source>
        <translation>Werckmeister, Musicalische Temperatur, zweite richtige Temperatur</translation>
    </message>
    <message>
        <source>Werckmeister, Musicalische Temperatur, third correct temperament</source>
        <translation>Werckmeister, Musicalische Temperatur, dritte richtige Temperatur</translation>
    </message>
    <message>
        <source>Werckmeister, Musicalische Temperatur: string lengths %1</source>
        <translation>Werckmeister, Musicalische Temperatur: Saitenlängen %1</translation>
    </message>
    <message>
        <source>Letter to Forkel, Allgemeine musikalische Zeitung N. F. 6, ed. Bellermann</source>
        <translation>Brief an Forkel, Allgemeine musikalische Zeitung N. F. 6, hg. von Bellermann</translation>
    </message>
    <message>
        <source>The same letter read in twelfths of the Pythagorean comma: 2, 2½, 3½, 3 and 1</source>
        <translation>Derselbe Brief, gelesen in Zwölfteln des pythagoreischen Kommas: 2, 2½, 3½, 3 und 1</translation>
    </message>
    <message>
        <source>Neidhardt, Sectio canonis harmonici; left out in 1732</source>
        <translation>Neidhardt, Sectio canonis harmonici; 1732 weggelassen</translation>
    </message>
    <message>
        <source>Common modern form: F–C–G–D–A–E–B each narrow by a sixth of the Pythagorean comma</source>
        <translation>Heute übliche Form: F–C–G–D–A–E–H jeweils um ein Sechstel des pythagoreischen Kommas eng</translation>
    </message>
    <message>
        <source>Vallotti, Trattato della moderna musica, book 2</source>
        <translation>Vallotti, Trattato della moderna musica, Buch 2</translation>
    </message>
    <message>
        <source>Barbour and others</source>
        <translation>Barbour und andere</translation>
    </message>
    <message>
        <source>Lehman, Early Music 33/1 and 33/2 (2005), reading of the scroll of 1722</source>
        <translation>Lehman, Early Music 33/1 und 33/2 (2005), Deutung der Schnörkel von 1722</translation>
    </message>
    <message>
        <source>Rameau, Nouveau système de musique théorique; numbers by Barbour</source>
        <translation>Rameau, Nouveau système de musique théorique; Zahlen von Barbour</translation>
    </message>
    <message>
        <source>Rameau, Nouveau système de musique théorique; reading by Dent</source>
        <translation>Rameau, Nouveau système de musique théorique; Lesart von Dent</translation>
    </message>
    <message>
        <source>D&apos;Alembert, Élémens de musique; Rousseau, Dictionnaire de musique, &quot;Tempérament&quot;; evened out in modern times</source>
        <translation>D&apos;Alembert, Élémens de musique; Rousseau, Dictionnaire de musique, „Tempérament“; in neuerer Zeit geglättet</translation>
    </message>
    <message>
        <source>clipped</source>
        <translation>übersteuert</translation>
    </message>
    <message>
        <source>hum</source>
        <translation>Brummen</translation>
    </message>
    <message>
        <source>noisy</source>
        <translation>Geräusch</translation>
    </message>
    <message>
        <source>two strings</source>
        <translation>zwei Saiten</translation>
    </message>
    <message>
        <source>not the string asked</source>
        <translation>nicht die verlangte Saite</translation>
    </message>
    <message>
        <source>ringing twin</source>
        <translation>Zwillingssaite klingt mit</translation>
    </message>
    <message>
        <source>automatic gain</source>
        <translation>automatische Verstärkung</translation>
    </message>
    <message>
        <source>gated</source>
        <translation>abgeschnitten</translation>
    </message>
    <message>
        <source>too short</source>
        <translation>zu kurz</translation>
    </message>
    <message>
        <source>false beat</source>
        <translation>falsche Schwebung</translation>
    </message>
    <message>
        <source>off target</source>
        <translation>weit vom Ziel</translation>
    </message>
    <message>
        <source>iron</source>
        <translation>Eisen</translation>
    </message>
    <message>
        <source>steel</source>
        <translation>Stahl</translation>
    </message>
    <message>
        <source>yellow-brass</source>
        <translation>Gelbmessing</translation>
    </message>
    <message>
        <source>red-brass</source>
        <translation>Rotmessing</translation>
    </message>
    <message>
        <source>red-brass-90</source>
        <translation>Rotmessing (CuZn10)</translation>
    </message>
    <message>
        <source>bronze</source>
        <translation>Bronze</translation>
    </message>
    <message>
        <source>silver</source>
        <translation>Silber</translation>
    </message>
    <message>
        <source>entered by hand</source>
        <translation>von Hand eingegeben</translation>
    </message>
    <message>
        <source>measured against a trusted tone</source>
        <translation>an einem verlässlichen Ton gemessen</translation>
    </message>
    <message>
        <source>the highest key has to lie above the lowest (above C3 with a short or broken octave), both from C0 to C9</source>
        <translation>Die höchste Taste muss über der tiefsten liegen (über c bei kurzer oder gebrochener Oktave), beide von C0 bis C9</translation>
    </message>
    <message>
        <source>a keyboard has at most 128 keys</source>
        <translation>Eine Klaviatur hat höchstens 128 Tasten</translation>
    </message>
    <message>
        <source>positions of the keyboard are whole semitones from -12 to 12, each once, at most 8, and 0 among them</source>
        <translation>Stellungen der Klaviatur sind ganze Halbtöne von -12 bis 12, jede einmal, höchstens 8, und 0 darunter</translation>
    </message>
    <message>
        <source>an instrument has 1 to 3 manuals</source>
        <translation>Ein Instrument hat 1 bis 3 Manuale</translation>
    </message>
    <message>
        <source>there is one manual and nothing to couple: give it a second one first</source>
        <translation>Es gibt ein Manual und nichts zu koppeln: erst ein zweites angeben</translation>
    </message>
    <message>
        <source>a&apos; is given as 300 to 600 Hz</source>
        <translation>a&apos; wird mit 300 bis 600 Hz angegeben</translation>
    </message>
    <message>
        <source>an instrument has at most 8 choirs and 16 registers</source>
        <translation>Ein Instrument hat höchstens 8 Chöre und 16 Register</translation>
    </message>
    <message>
        <source>the last choir stays: an instrument has one and a register that plucks it</source>
        <translation>Der letzte Chor bleibt: Ein Instrument hat einen und ein Register, das ihn zupft</translation>
    </message>
    <message>
        <source>the last register stays: without one no string is plucked</source>
        <translation>Das letzte Register bleibt: Ohne eines wird keine Saite gezupft</translation>
    </message>
    <message>
        <source>a register needs a name, such as front 8′</source>
        <translation>Ein Register braucht einen Namen, etwa vorderes 8′</translation>
    </message>
    <message>
        <source>a dogleg is played from two manuals and here is one</source>
        <translation>Ein Dogleg wird von zwei Manualen gespielt, hier ist eines</translation>
    </message>
    <message>
        <source>the plucking point lies at 1 to 50 % of the speaking length</source>
        <translation>Der Anrisspunkt liegt bei 1 bis 50 % der klingenden Länge</translation>
    </message>
    <message>
        <source>a register plucks after 0 to 15 mm of key travel</source>
        <translation>Ein Register zupft nach 0 bis 15 mm Tastengang</translation>
    </message>
    <message>
        <source>a speaking length is 20 to 4000 mm</source>
        <translation>Eine klingende Länge ist 20 bis 4000 mm</translation>
    </message>
    <message>
        <source>wire is 0.05 to 3 mm thick</source>
        <translation>Draht ist 0,05 bis 3 mm stark</translation>
    </message>
    <message>
        <source>a tuning pin is 2 to 12 mm thick</source>
        <translation>Ein Stimmwirbel ist 2 bis 12 mm stark</translation>
    </message>
    <message>
        <source>mark three strings or more: the first and the last keep their length, those between are filled in</source>
        <translation>Drei oder mehr Saiten markieren: die erste und die letzte behalten ihre Länge, die dazwischen werden gefüllt</translation>
    </message>
    <message>
        <source>mark two strings or more: all take the wire of the first</source>
        <translation>Zwei oder mehr Saiten markieren: alle bekommen den Draht der ersten</translation>
    </message>
    <message>
        <source>an object</source>
        <translation>ein Objekt</translation>
    </message>
    <message>
        <source>no number</source>
        <translation>keine Zahl</translation>
    </message>
    <message>
        <source>no note</source>
        <translation>kein Ton</translation>
    </message>
    <message>
        <source>no tempering</source>
        <translation>keine Temperierung</translation>
    </message>
    <message>
        <source>the file</source>
        <translation>die Datei</translation>
    </message>
    <message>
        <source>the first row</source>
        <translation>die erste Zeile</translation>
    </message>
    <message>
        <source>write an object, { ... }</source>
        <translation>ein Objekt schreiben, { ... }</translation>
    </message>
    <message>
        <source>give true or false</source>
        <translation>true oder false angeben</translation>
    </message>
    <message>
        <source>give a name of its own, this one is taken already</source>
        <translation>einen eigenen Namen geben, dieser ist schon vergeben</translation>
    </message>
    <message>
        <source>the keys from the lowest up</source>
        <translation>die Tasten von der tiefsten an</translation>
    </message>
    <message>
        <source>such as F#3 (C4 is middle C)</source>
        <translation>etwa F#3 (C4 ist c′)</translation>
    </message>
    <message>
        <source>give a note from C0 to C9, such as F#3 (C4 is middle C)</source>
        <translation>einen Ton von C0 bis C9 angeben, etwa F#3 (C4 ist c′)</translation>
    </message>
    <message>
        <source>give a note, such as F#3 (C4 is middle C)</source>
        <translation>einen Ton angeben, etwa F#3 (C4 ist c′)</translation>
    </message>
    <message>
        <source>the middle of the key from the left end</source>
        <translation>die Mitte der Taste vom linken Ende aus</translation>
    </message>
    <message>
        <source>the speaking length from nut pin to bridge pin</source>
        <translation>die klingende Länge vom Stift am Stimmstock bis zum Stift am Steg</translation>
    </message>
    <message>
        <source>the thickness of the wire</source>
        <translation>die Dicke des Drahtes</translation>
    </message>
    <message>
        <source>the tuning pin where the wire is wound</source>
        <translation>der Stimmwirbel, wo der Draht aufgewickelt ist</translation>
    </message>
    <message>
        <source>rows counted from the player</source>
        <translation>Reihen vom Spieler aus gezählt</translation>
    </message>
    <message>
        <source>pins counted from the left</source>
        <translation>Wirbel von links gezählt</translation>
    </message>
    <message>
        <source>such as 8, 8b, 4 or 16</source>
        <translation>etwa 8, 8b, 4 oder 16</translation>
    </message>
    <message>
        <source>give the choir&apos;s id, such as 8, 8b, 4 or 16</source>
        <translation>das Kürzel des Chors angeben, etwa 8, 8b, 4 oder 16</translation>
    </message>
    <message>
        <source>the length in feet: 4, 8 or 16</source>
        <translation>die Länge in Fuß: 4, 8 oder 16</translation>
    </message>
    <message>
        <source>give 4, 8 or 16</source>
        <translation>4, 8 oder 16 angeben</translation>
    </message>
    <message>
        <source>one for each key from the lowest up, and more only as far as the keyboard shifts</source>
        <translation>eine für jede Taste von der tiefsten an, und mehr nur so weit, wie die Klaviatur sich verschiebt</translation>
    </message>
    <message>
        <source>such as 8, 4 or lute</source>
        <translation>etwa 8, 4 oder lute</translation>
    </message>
    <message>
        <source>the distance from the nut as a part of the speaking length at c2</source>
        <translation>der Abstand vom Stimmstocksteg als Teil der klingenden Länge bei c″</translation>
    </message>
    <message>
        <source>the key travel at which it plucks</source>
        <translation>der Tastenweg, bei dem es anreißt</translation>
    </message>
    <message>
        <source>semitones of sounding pitch, 0 among them</source>
        <translation>Halbtöne der klingenden Höhe, 0 darunter</translation>
    </message>
    <message>
        <source>give whole semitones from -12 to 12, each once</source>
        <translation>ganze Halbtöne von -12 bis 12 angeben, jeden einmal</translation>
    </message>
    <message>
        <source>put 0 among them, the position at which pitch_standard_hz holds</source>
        <translation>0 muss darunter sein: die Lage, in der pitch_standard_hz gilt</translation>
    </message>
    <message>
        <source>the number of the file&apos;s layout; this version reads 1</source>
        <translation>die Nummer der Dateiform; diese Version liest 1</translation>
    </message>
    <message>
        <source>the lowest first</source>
        <translation>das tiefste zuerst</translation>
    </message>
    <message>
        <source>such as lower</source>
        <translation>etwa lower</translation>
    </message>
    <message>
        <source>one for each set of strings</source>
        <translation>einer für jeden Saitenbezug</translation>
    </message>
    <message>
        <source>one for each row of jacks</source>
        <translation>eines für jede Springerreihe</translation>
    </message>
    <message>
        <source>give false; a dogleg is played from two manuals and here is one</source>
        <translation>false angeben; ein Dogleg wird von zwei Manualen gespielt, und hier ist eines</translation>
    </message>
    <message>
        <source>give &quot;none&quot;; there is one manual and nothing to couple</source>
        <translation>„none“ angeben; es gibt ein Manual und nichts zu koppeln</translation>
    </message>
    <message>
        <source>a short name without spaces</source>
        <translation>ein kurzer Name ohne Leerzeichen</translation>
    </message>
    <message>
        <source>what people call it</source>
        <translation>wie es genannt wird</translation>
    </message>
    <message>
        <source>the pitch of a&apos; at position 0</source>
        <translation>die Höhe von a′ in der Lage 0</translation>
    </message>
    <message>
        <source>give -100 to 100 cents from a pure fifth</source>
        <translation>-100 bis 100 Cent von der reinen Quinte angeben</translation>
    </message>
    <message>
        <source>give a tempering such as &quot;-1/4S&quot;, or a number of cents</source>
        <translation>eine Temperierung wie „-1/4S“ angeben oder eine Zahl von Cent</translation>
    </message>
    <message>
        <source>the note with which the chain of fifths begins, such as &quot;Eb&quot;</source>
        <translation>der Ton, mit dem die Quintenkette beginnt, etwa „Eb“</translation>
    </message>
    <message>
        <source>give a note without octave such as &quot;Eb&quot;</source>
        <translation>einen Ton ohne Oktave angeben, etwa „Eb“</translation>
    </message>
    <message>
        <source>the tempering of each fifth up the chain from first</source>
        <translation>die Temperierung jeder Quinte die Kette hinauf von first an</translation>
    </message>
    <message>
        <source>write an object of note names and cents above C, { &quot;C&quot;: 0, ... }</source>
        <translation>ein Objekt aus Tonnamen und Cent über C schreiben, { „C“: 0, ... }</translation>
    </message>
    <message>
        <source>name it by a letter A to G with # or b, such as Eb</source>
        <translation>mit einem Buchstaben A bis G und # oder b benennen, etwa Eb</translation>
    </message>
    <message>
        <source>give 0 to below 1200 cents above C</source>
        <translation>0 bis unter 1200 Cent über C angeben</translation>
    </message>
    <message>
        <source>this version reads 1; a newer Quillbench wrote the file, use that one</source>
        <translation>diese Version liest 1; ein neueres Quillbench hat die Datei geschrieben, dieses nehmen</translation>
    </message>
    <message>
        <source>a short name such as &quot;my-vallotti&quot;</source>
        <translation>ein kurzer Name wie „my-vallotti“</translation>
    </message>
    <message>
        <source>what the temperament is called</source>
        <translation>wie die Temperatur heißt</translation>
    </message>
    <message>
        <source>given together with cents</source>
        <translation>zusammen mit cents angegeben</translation>
    </message>
    <message>
        <source>give either first and fifths, or cents</source>
        <translation>entweder first und fifths oder cents angeben</translation>
    </message>
    <message>
        <source>name each column once</source>
        <translation>jede Spalte einmal benennen</translation>
    </message>
    <message>
        <source>name the columns, choir and key at least</source>
        <translation>die Spalten benennen, mindestens choir und key</translation>
    </message>
    <message>
        <source>give a whole number</source>
        <translation>eine ganze Zahl angeben</translation>
    </message>
    <message>
        <source>give each string of a choir once</source>
        <translation>jede Saite eines Chors einmal angeben</translation>
    </message>
    <message>
        <source>text after a closing quote; double a quote that belongs to the cell</source>
        <translation>Text nach einem schließenden Anführungszeichen; eines, das zur Zelle gehört, verdoppeln</translation>
    </message>
    <message>
        <source>a quote is opened and never closed</source>
        <translation>ein Anführungszeichen wird geöffnet und nie geschlossen</translation>
    </message>
    <message>
        <source>more than 64 cells, which no such list has</source>
        <translation>mehr als 64 Zellen, die keine solche Liste hat</translation>
    </message>
    <message>
        <source>JSON without a &quot;kind&quot; of ours</source>
        <translation>JSON ohne ein „kind“ von uns</translation>
    </message>
    <message>
        <source>a folder</source>
        <translation>ein Ordner</translation>
    </message>
    <message>
        <source>cannot be read</source>
        <translation>nicht zu lesen</translation>
    </message>
    <message>
        <source>empty</source>
        <translation>leer</translation>
    </message>
    <message>
        <source>not one JSON object, as an export of the logbook has on each line</source>
        <translation>kein einzelnes JSON-Objekt, wie ein Export des Logbuchs es auf jeder Zeile hat</translation>
    </message>
    <message>
        <source>has no schema and kind; give an export of the logbook</source>
        <translation>hat kein schema und kind; einen Export des Logbuchs angeben</translation>
    </message>
    <message>
        <source>does not begin an export of the logbook (kind &quot;logbook&quot;)</source>
        <translation>beginnt keinen Export des Logbuchs (kind „logbook“)</translation>
    </message>
    <message>
        <source>has no row</source>
        <translation>hat kein row</translation>
    </message>
    <message>
        <source>row is no object, { ... }</source>
        <translation>row ist kein Objekt, { ... }</translation>
    </message>
    <message>
        <source>give what an export of the logbook has there</source>
        <translation>angeben, was ein Export des Logbuchs dort hat</translation>
    </message>
    <message>
        <source>give %1 to %2, with a decimal point, or leave it empty</source>
        <translation>%1 bis %2 angeben, mit Dezimalpunkt, oder leer lassen</translation>
    </message>
    <message>
        <source>give a key of the compass, %1 to %2</source>
        <translation>eine Taste des Tonumfangs angeben, %1 bis %2</translation>
    </message>
    <message>
        <source>give a text of 1 to %1 bytes, %2</source>
        <translation>einen Text von 1 bis %1 Bytes angeben: %2</translation>
    </message>
    <message>
        <source>give a text of up to %1 bytes</source>
        <translation>einen Text von höchstens %1 Bytes angeben</translation>
    </message>
    <message>
        <source>give a list of %1 to %2, %3</source>
        <translation>eine Liste von %1 bis %2 angeben: %3</translation>
    </message>
    <message>
        <source>give a list of %1, %2</source>
        <translation>eine Liste von %1 angeben: %2</translation>
    </message>
    <message>
        <source>give one of %1</source>
        <translation>eines von diesen angeben: %1</translation>
    </message>
    <message>
        <source>give keys in ascending order of what they sound; the one before is %1</source>
        <translation>Tasten in der Reihenfolge ihrer Töne von unten nach oben angeben; die davor ist %1</translation>
    </message>
    <message>
        <source>give %1 to %2, %3 (a whole number)</source>
        <translation>%1 bis %2 angeben: %3 (eine ganze Zahl)</translation>
    </message>
    <message>
        <source>give %1 to %2, %3</source>
        <translation>%1 bis %2 angeben: %3</translation>
    </message>
    <message>
        <source>this version reads up to %1; open the file with a newer Quillbench</source>
        <translation>diese Version liest bis %1; die Datei mit einem neueren Quillbench öffnen</translation>
    </message>
    <message>
        <source>%1 natural key widths</source>
        <translation>%1 Breiten einer Untertaste</translation>
    </message>
    <message>
        <source>%1 mm of speaking length</source>
        <translation>%1 mm klingende Länge</translation>
    </message>
    <message>
        <source>%1 mm of wire</source>
        <translation>%1 mm Draht</translation>
    </message>
    <message>
        <source>%1 mm of tuning pin</source>
        <translation>%1 mm Stimmwirbel</translation>
    </message>
    <message>
        <source>%1 rows from the player</source>
        <translation>%1 Reihen vom Spieler aus</translation>
    </message>
    <message>
        <source>%1 pins from the left</source>
        <translation>%1 Wirbel von links</translation>
    </message>
    <message>
        <source>a list of %1</source>
        <translation>eine Liste von %1</translation>
    </message>
    <message>
        <source>choir %1: %2</source>
        <translation>Chor %1: %2</translation>
    </message>
    <message>
        <source>more than %1 rows, which no such list has</source>
        <translation>mehr als %1 Zeilen, die keine solche Liste hat</translation>
    </message>
    <message>
        <source>nested deeper than %1 levels or of more than %2 fields, which no such file is</source>
        <translation>tiefer als %1 Ebenen verschachtelt oder mit mehr als %2 Feldern, wie keine solche Datei</translation>
    </message>
    <message>
        <source>JSON of the kind &quot;%1&quot;, not of ours</source>
        <translation>JSON der Art „%1“, nicht von uns</translation>
    </message>
    <message>
        <source>%1; give a recording, an instrument, a temperament or an export of the logbook</source>
        <translation>%1; eine Aufnahme, ein Instrument, eine Temperatur oder einen Export des Logbuchs angeben</translation>
    </message>
    <message>
        <source>written by a newer version (schema %1); import it with that version</source>
        <translation>von einer neueren Version geschrieben (Schema %1); mit dieser Version einlesen</translation>
    </message>
    <message>
        <source>%1 is missing: %2</source>
        <translation>%1 fehlt: %2</translation>
    </message>
    <message>
        <source>line %1, %2</source>
        <translation>Zeile %1, Spalte %2</translation>
    </message>
    <message>
        <source>line %1: %2</source>
        <translation>Zeile %1: %2</translation>
    </message>
    <message>
        <source>%1 is %2: %3</source>
        <translation>%1 ist %2: %3</translation>
    </message>
    <message>
        <source>lowest</source>
        <translation>tiefsten</translation>
    </message>
    <message>
        <source>highest</source>
        <translation>höchsten</translation>
    </message>
    <message>
        <source>the length of its %1 string, key %2, is missing: add that row, other gaps are filled</source>
        <translation>die Länge seiner %1 Saite, Taste %2, fehlt: diese Zeile ergänzen, andere Lücken werden gefüllt</translation>
    </message>
    <message>
        <source>%1; save with commas instead of semicolons</source>
        <translation>%1; mit Kommas statt Strichpunkten speichern</translation>
    </message>
    <message>
        <source>pins lie in rows 1 to 12, at places 1 to 400 of a row; 0 is not known</source>
        <translation>Stimmwirbel sitzen in Reihe 1 bis 12, auf Platz 1 bis 400 einer Reihe; 0 heißt nicht bekannt</translation>
    </message>
</context>
<context>
    <name>CoreWords</name>
    <message>
        <source>second %1</source>
        <translation>%1 II</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
</context>
<context>
    <name>DriftPictureText</name>
    <message>
        <source>faint: the recheck of %1</source>
        <translation>blass: die Nachprüfung vom %1</translation>
    </message>
</context>
<context>
    <name>DriftText</name>
    <message>
        <source>and %1 more</source>
        <translation>und %1 weitere</translation>
    </message>
    <message>
        <source>%1 %2 %3 %4</source>
        <translation>%1 %2 %3 %4</translation>
    </message>
    <message>
        <source>less than an hour ago</source>
        <translation>vor weniger als einer Stunde</translation>
    </message>
    <message>
        <source>%1 hours ago</source>
        <translation>vor %1 Stunden</translation>
    </message>
    <message>
        <source>%1 days ago</source>
        <translation>vor %1 Tagen</translation>
    </message>
    <message>
        <source>The logbook knows no string of this choir that was settled at this pitch: each is compared with what the temperament wants.</source>
        <translation>Das Logbuch kennt keine Saite dieses Chors, die auf diesem Stimmton gesessen hat: jede wird mit dem verglichen, was die Temperatur verlangt.</translation>
    </message>
    <message>
        <source>Compared with how it was left %1.</source>
        <translation>Verglichen mit dem Stand %1.</translation>
    </message>
    <message>
        <source>%1 of its strings were not settled before (crosses).</source>
        <translation>%1 der Saiten hatten noch nicht gesessen (Kreuze).</translation>
    </message>
    <message>
        <source>Play %1 again.</source>
        <translation>%1 noch einmal spielen.</translation>
    </message>
    <message>
        <source>%1. Play the %2 upwards from %3, about a second a note.</source>
        <translation>%1. %2 von %3 an aufwärts spielen, etwa ein Ton je Sekunde.</translation>
    </message>
    <message>
        <source>%1 of %2 heard. Next: %3.</source>
        <translation>%1 von %2 gehört. Nächster Ton: %3.</translation>
    </message>
    <message>
        <source>The %1 is heard. Choose another choir, or see what is worth the hammer.</source>
        <translation>%1 ist gehört. Einen anderen Chor wählen, oder ansehen, was das Nachstimmen lohnt.</translation>
    </message>
    <message>
        <source>All heard. To be sure, play again: %1.</source>
        <translation>Alle gehört. Zur Sicherheit noch einmal spielen: %1.</translation>
    </message>
    <message>
        <source>The whole instrument:</source>
        <translation>Das ganze Instrument:</translation>
    </message>
    <message>
        <source>cents</source>
        <translation>Cent</translation>
    </message>
    <message>
        <source>The %1 beside it:</source>
        <translation>%1 demgegenüber:</translation>
    </message>
    <message>
        <source>Brass and iron moved as if it were warmer by:</source>
        <translation>Messing und Eisen bewegten sich, als wäre es wärmer um:</translation>
    </message>
    <message>
        <source>Brass and iron moved as if it were colder by:</source>
        <translation>Messing und Eisen bewegten sich, als wäre es kälter um:</translation>
    </message>
    <message>
        <source>degrees</source>
        <translation>Grad</translation>
    </message>
    <message>
        <source>From octave to octave upwards:</source>
        <translation>Von Oktave zu Oktave aufwärts:</translation>
    </message>
    <message>
        <source>No string moved by itself.</source>
        <translation>Keine Saite hat sich für sich allein bewegt.</translation>
    </message>
    <message>
        <source>Moved by themselves: %1.</source>
        <translation>Für sich allein bewegt: %1.</translation>
    </message>
    <message>
        <source>Leave it: of what was heard no interval is more than %1 cents out.</source>
        <translation>So lassen: unter dem Gehörten ist kein Intervall um mehr als %1 Cent verstimmt.</translation>
    </message>
    <message>
        <source>More than half of what was heard is out: tune it again in Tune.</source>
        <translation>Mehr als die Hälfte des Gehörten ist verstimmt: unter „Stimmen“ neu stimmen.</translation>
    </message>
    <message>
        <source>1 string</source>
        <translation>1 Saite</translation>
    </message>
    <message>
        <source>%1 strings</source>
        <translation>%1 Saiten</translation>
    </message>
    <message>
        <source>Worth the hammer: %1, in this order.</source>
        <translation>Das Nachstimmen lohnt: %1, in dieser Reihenfolge.</translation>
    </message>
    <message>
        <source>%1 cents (a′ %2 Hz)</source>
        <translation>%1 Cent (a′ %2 Hz)</translation>
    </message>
    <message>
        <source>Leave it all and let the pitch move by %1. At the old pitch: %2.</source>
        <translation>Alles lassen und die Tonhöhe um %1 wandern lassen. Auf der alten Tonhöhe: %2.</translation>
    </message>
    <message>
        <source>Move the pitch by %1 and touch only these %2. At the old pitch: %3.</source>
        <translation>Die Tonhöhe um %1 verschieben und nur diese %2 berühren. Auf der alten Tonhöhe: %3.</translation>
    </message>
    <message>
        <source>%1 of %2 strings of the %3 heard</source>
        <translation>%1 von %2 Saiten gehört (%3)</translation>
    </message>
    <message>
        <source>; %1 is asked for</source>
        <translation>; gewünscht: %1</translation>
    </message>
    <message>
        <source>Those heard moved by %1 cents on average; too few to tell case, choir and warmth apart.</source>
        <translation>Die gehörten sind im Mittel um %1 Cent gewandert; zu wenige, um Gehäuse, Chor und Wärme zu unterscheiden.</translation>
    </message>
    <message>
        <source>Not judged here, because never settled: %1 (crosses). Set them in Tune.</source>
        <translation>Hier nicht beurteilt, weil nie gestimmt: %1 (Kreuze). Zuerst unter „Stimmen“ stimmen.</translation>
    </message>
    <message>
        <source>Leave it: nothing of what was heard sounds wrong.</source>
        <translation>So lassen: von dem, was gehört wurde, klingt nichts falsch.</translation>
    </message>
    <message>
        <source>Too little time for any string that is worth it.</source>
        <translation>Zu wenig Zeit für eine Saite, die es lohnt.</translation>
    </message>
    <message>
        <source>In %1 minutes these, in this order: about %2 minutes at your speed. You may stop after any of them. Of what sounds wrong %3 % is left.</source>
        <translation>In %1 Minuten diese, in dieser Folge: etwa %2 Minuten im eigenen Tempo. Nach jeder lässt sich aufhören. Von dem, was falsch klingt, bleiben %3 %.</translation>
    </message>
</context>
<context>
    <name>FormatText</name>
    <message>
        <source>in tune</source>
        <translation>stimmt</translation>
    </message>
    <message>
        <source>sharp</source>
        <translation>zu hoch</translation>
    </message>
    <message>
        <source>flat</source>
        <translation>zu tief</translation>
    </message>
    <message>
        <source>%1 Hz</source>
        <translation>%1 Hz</translation>
    </message>
    <message>
        <source>less than %1°</source>
        <translation>weniger als %1°</translation>
    </message>
    <message>
        <source>%1°</source>
        <translation>%1°</translation>
    </message>
</context>
<context>
    <name>GuidanceText</name>
    <message>
        <source>%1 cents</source>
        <translation>%1 Cent</translation>
    </message>
    <message>
        <source>%1 (%2 of the pin)</source>
        <translation>%1 (%2 am Wirbel)</translation>
    </message>
    <message>
        <source>%1 settled</source>
        <translation>%1 gestimmt</translation>
    </message>
    <message>
        <source>%1 kept as they are</source>
        <translation>%1 so belassen</translation>
    </message>
    <message>
        <source>%1 skipped</source>
        <translation>%1 übergangen</translation>
    </message>
    <message>
        <source>The octave is done: %1. Play any of its keys to look at it again.</source>
        <translation>Die Oktave ist fertig: %1. Eine ihrer Tasten spielen, um sie noch einmal anzusehen.</translation>
    </message>
    <message>
        <source>The plan is done: %1. Play any key to look at it again.</source>
        <translation>Der Plan ist fertig: %1. Eine Taste spielen, um sie noch einmal anzusehen.</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>Only listen to %1.</source>
        <translation>Nur anhören: %1.</translation>
    </message>
    <message>
        <source>Tune %1.</source>
        <translation>Stimmen: %1.</translation>
    </message>
    <message>
        <source>Play %1.</source>
        <translation>%1 spielen.</translation>
    </message>
    <message>
        <source>%1. %2</source>
        <translation>%1. %2</translation>
    </message>
    <message>
        <source>%1 Now play %2.</source>
        <translation>%1 Nun %2 spielen.</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <translation>%1 %2</translation>
    </message>
    <message>
        <source>%1 is skipped.</source>
        <translation>%1 ist übergangen.</translation>
    </message>
    <message>
        <source>%1 is kept, %2 cents %3 of its place.</source>
        <translation>%1 bleibt so, um %2 Cent %3.</translation>
    </message>
    <message>
        <source>%1 is kept as it is.</source>
        <translation>%1 bleibt, wie es ist.</translation>
    </message>
    <message>
        <source> (about %1 of the pin)</source>
        <translation> (etwa %1 am Wirbel)</translation>
    </message>
    <message>
        <source>Tune %1. Accept it when you are content.</source>
        <translation>Stimmen: %1. Annehmen, wenn es gut ist.</translation>
    </message>
    <message>
        <source>%1 is as near as it can be heard here. Accept it as it is.</source>
        <translation>%1 ist so nah, wie es hier zu hören ist. So annehmen.</translation>
    </message>
    <message>
        <source>It beats, but to which side is not heard. Turn %1 a hair: does it slow down?</source>
        <translation>Es schwebt, doch nach welcher Seite, ist nicht zu hören. %1 eine Spur drehen: wird es langsamer?</translation>
    </message>
    <message>
        <source>Stop: the hammer sits on the pin of %1, not of %2. It has moved by %3 cents.</source>
        <translation>Halt: der Stimmhammer sitzt auf dem Wirbel von %1, nicht von %2. Diese Saite hat sich um %3 Cent bewegt.</translation>
    </message>
    <message>
        <source>Pluck %1 and press its string lightly between nut and pin with a wooden stick, eyes away from it.</source>
        <translation>%1 anreißen und die Saite zwischen Wirbel und Stimmstocksteg leicht mit einem Holzstäbchen drücken, Augen weg von der Saite.</translation>
    </message>
    <message>
        <source>%1 did not sharpen: another string was pressed. Look along the string again.</source>
        <translation>%1 wurde nicht höher: eine andere Saite wurde gedrückt. Noch einmal an der Saite entlangsehen.</translation>
    </message>
    <message>
        <source>Make sure of the pin: turn %1 down by 2 to 5 cents%2 and pluck it.</source>
        <translation>Erst sichergehen, dass es der richtige Wirbel ist: %1 um 2 bis 5 Cent nachlassen%2 und anreißen.</translation>
    </message>
    <message>
        <source>That is the pin of %1. Now up by %2, to a little above.</source>
        <translation>Das ist der Wirbel von %1. Nun um %2 hinauf, etwas darüber.</translation>
    </message>
    <message>
        <source>Up by %1, to a little above, and pluck %2.</source>
        <translation>Um %1 hinauf, etwas darüber, und %2 anreißen.</translation>
    </message>
    <message>
        <source>%1 a hair up: %2.</source>
        <translation>%1 eine Spur hinauf: %2.</translation>
    </message>
    <message>
        <source>Let %1 down by %2 and pluck it.</source>
        <translation>%1 um %2 nachlassen und anreißen.</translation>
    </message>
    <message>
        <source>Settle %1 down into the target: %2.</source>
        <translation>%1 von oben ins Ziel setzen: %2.</translation>
    </message>
    <message>
        <source>%1 is there. Hand off the hammer, and pluck it briskly %2 times more.</source>
        <translation>%1 ist da. Hand vom Stimmhammer, und noch %2-mal kräftig anreißen.</translation>
    </message>
    <message>
        <source>%1 is there. Hand off the hammer, and pluck it once more.</source>
        <translation>%1 ist da. Hand vom Stimmhammer, und noch einmal anreißen.</translation>
    </message>
    <message>
        <source>Stop: %1 is not moving. See whether the hammer sits on its pin.</source>
        <translation>Halt: %1 bewegt sich nicht. Nachsehen, ob der Stimmhammer auf dem richtigen Wirbel sitzt.</translation>
    </message>
    <message>
        <source>Stop: %1 stands %2 cents above its target. Eyes away from the string; let it down now.</source>
        <translation>Halt: %1 steht %2 Cent über dem Ziel. Augen weg von der Saite; jetzt nachlassen.</translation>
    </message>
    <message>
        <source>All were heard.</source>
        <translation>Alle sind gehört.</translation>
    </message>
    <message>
        <source>%1 has settled.</source>
        <translation>%1 sitzt.</translation>
    </message>
    <message>
        <source>The %1 moved by %2 cents on average and pulls the rest along. F12 goes through it once more%3.</source>
        <translation>%1 hat sich im Mittel um %2 Cent bewegt und zieht das Übrige mit. F12 geht noch einmal durch%3.</translation>
    </message>
    <message>
        <source>; the next key goes on</source>
        <translation>; mit der nächsten Taste geht es weiter</translation>
    </message>
    <message>
        <source>Paused: nothing that sounds is counted.</source>
        <translation>Pause: was klingt, zählt nicht.</translation>
    </message>
    <message>
        <source>The last pluck was too weak or too short to count.</source>
        <translation>Der letzte Anriss war zu schwach oder zu kurz, um zu zählen.</translation>
    </message>
    <message>
        <source>Too much noise: the last pluck does not count.</source>
        <translation>Zu viel Geräusch: der letzte Anriss zählt nicht.</translation>
    </message>
    <message>
        <source>Two strings sound: is another register on?</source>
        <translation>Zwei Saiten klingen: ist noch ein Register eingeschaltet?</translation>
    </message>
    <message>
        <source>That key is not in this plan; nothing is kept of it.</source>
        <translation>Diese Taste kommt im Plan nicht vor; nichts davon wird festgehalten.</translation>
    </message>
    <message>
        <source>No string of this choir was recognised in the last pluck.</source>
        <translation>Im letzten Anriss wurde keine Saite dieses Chors erkannt.</translation>
    </message>
    <message>
        <source>not yet</source>
        <translation>noch nicht</translation>
    </message>
    <message>
        <source>at work</source>
        <translation>in Arbeit</translation>
    </message>
    <message>
        <source>settled</source>
        <translation>sitzt</translation>
    </message>
    <message>
        <source>kept</source>
        <translation>belassen</translation>
    </message>
    <message>
        <source>skipped</source>
        <translation>übergangen</translation>
    </message>
    <message>
        <source>%1 was done and has sunk by %2 cents. Tune it again.</source>
        <translation>%1 war fertig und ist um %2 Cent gesunken. Noch einmal stimmen.</translation>
    </message>
    <message>
        <source>%1 was done and has risen by %2 cents. Tune it again.</source>
        <translation>%1 war fertig und ist um %2 Cent gestiegen. Noch einmal stimmen.</translation>
    </message>
    <message>
        <source>No number is sure enough for %1: its partials beat by themselves. By ear: %2</source>
        <translation>Für %1 ist keine Zahl sicher genug: seine Teiltöne schweben in sich. Nach Gehör: %2</translation>
    </message>
    <message>
        <source>%1 was not heard well. Pluck it once more before the pin is turned.</source>
        <translation>%1 war nicht gut zu hören. Noch einmal anreißen, bevor der Wirbel gedreht wird.</translation>
    </message>
    <message>
        <source>Play %1 alone once more: it seems to beat by itself. Then tune %2.</source>
        <translation>%1 noch einmal allein anschlagen: es scheint für sich zu schweben. Dann stimmen: %2.</translation>
    </message>
    <message>
        <source>First play %1 once alone: the beat is then told finer. Then tune %2.</source>
        <translation>Zuerst %1 einmal allein anschlagen: so wird die Schwebung feiner gelesen. Dann stimmen: %2.</translation>
    </message>
</context>
<context>
    <name>HeardPitchText</name>
    <message>
        <source>What was heard first is no A from 370 to 570 Hz: listen anew, A first.</source>
        <translation>Was zuerst gehört wurde, ist kein A von 370 bis 570 Hz: von neuem zuhören, zuerst das A.</translation>
    </message>
    <message>
        <source>%1, heard for %2 s; it wavers by %3 cents.</source>
        <translation>%1, %2 s lang gehört; der Ton schwankt um %3 Cent.</translation>
    </message>
    <message>
        <source>%1, heard for %2 s.</source>
        <translation>%1, %2 s lang gehört.</translation>
    </message>
    <message>
        <source>No held tone is heard.</source>
        <translation>Kein gehaltener Ton ist zu hören.</translation>
    </message>
    <message>
        <source>The next note, or that is all.</source>
        <translation>Der nächste Ton, oder das war alles.</translation>
    </message>
    <message>
        <source>a′ = %1 %2 cents</source>
        <translation>a′ = %1 %2 Cent</translation>
    </message>
    <message>
        <source>The mean of all twelve notes against the temperament of the session, from which they scatter by %1 cents.</source>
        <translation>Das Mittel aller zwölf Töne gegen die Temperatur der Sitzung, um die sie mit %1 Cent streuen.</translation>
    </message>
    <message>
        <source>From A alone.</source>
        <translation>Vom A allein.</translation>
    </message>
    <message>
        <source>From A alone, until all twelve are heard; so far %1.</source>
        <translation>Vom A allein, bis alle zwölf gehört sind; bisher %1.</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>%1 cents from the session&apos;s %2.</source>
        <translation>%1 Cent von den %2 der Sitzung.</translation>
    </message>
    <message>
        <source>That is another standard: no first look offers it.</source>
        <translation>Das ist ein anderer Stimmton: kein erster Blick bietet ihn an.</translation>
    </message>
    <message>
        <source>Before an old instrument is raised ask its maker or a conservator, and see Change of pitch under Instrument: strings may break.</source>
        <translation>Bevor ein altes Instrument höher gestimmt wird, Instrumentenbauer oder Restaurierung fragen und Andere Stimmhöhe unter Instrument ansehen: Saiten können reißen.</translation>
    </message>
    <message>
        <source>A tone sounds: hold it for three seconds and more.</source>
        <translation>Ein Ton klingt: drei Sekunden und länger halten.</translation>
    </message>
</context>
<context>
    <name>HistoryText</name>
    <message>
        <source>Against %1: %2 dB (± %3) in loudness, %4 octaves (± %5) in brightness.</source>
        <translation>Gegen %1: %2 dB (± %3) an Lautstärke, %4 Oktaven (± %5) an Helligkeit.</translation>
    </message>
    <message>
        <source>strings displaced by %1 dB (± %2)</source>
        <translation>Saiten um %1 dB (± %2) ausgelenkt</translation>
    </message>
    <message>
        <source>brightness %1 octaves (± %2)</source>
        <translation>Helligkeit %1 Oktaven (± %2)</translation>
    </message>
    <message>
        <source>%1 (%2 dB)</source>
        <translation>%1 (%2 dB)</translation>
    </message>
    <message>
        <source>no key has left its neighbours</source>
        <translation>keine Taste ist von ihren Nachbarn abgewichen</translation>
    </message>
    <message>
        <source>left their neighbours: %1</source>
        <translation>von ihren Nachbarn abgewichen: %1</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>Since %1: %2.</source>
        <translation>Seit %1: %2.</translation>
    </message>
    <message>
        <source>; </source>
        <translation>; </translation>
    </message>
    <message>
        <source>Wear is not yet known: it takes three kept passes over two months.</source>
        <translation>Über Verschleiß ist noch nichts bekannt: Es braucht drei aufgehobene Durchgänge in zwei Monaten.</translation>
    </message>
    <message>
        <source>In a year the displacement changes by %1 dB (%2 to %3).</source>
        <translation>In einem Jahr ändert sich die Auslenkung um %1 dB (%2 bis %3).</translation>
    </message>
    <message>
        <source>When it will want new plectra is not yet known.</source>
        <translation>Wann neue Kiele nötig werden, ist noch nicht bekannt.</translation>
    </message>
    <message>
        <source>At this pace it will want new plectra in %1 months at the earliest (3 dB less than at first).</source>
        <translation>Geht es so weiter, braucht es frühestens in %1 Monaten neue Kiele (3 dB weniger als zuerst).</translation>
    </message>
    <message>
        <source>At this pace it will want new plectra in %1 to %2 months (3 dB less than at first).</source>
        <translation>Geht es so weiter, braucht es in %1 bis %2 Monaten neue Kiele (3 dB weniger als zuerst).</translation>
    </message>
</context>
<context>
    <name>InstrumentTables</name>
    <message>
        <source>lute</source>
        <translation>Nasal</translation>
    </message>
    <message>
        <source>dogleg</source>
        <translation>Dogleg</translation>
    </message>
    <message>
        <source>plain</source>
        <translation>gerade</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Plucks</source>
        <translation>Reißt an</translation>
    </message>
    <message>
        <source>Manual</source>
        <translation>Manual</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Adjusters</source>
        <translation>Schraube</translation>
    </message>
    <message>
        <source>At
%</source>
        <translation>Bei
%</translation>
    </message>
    <message>
        <source>yes</source>
        <translation>ja</translation>
    </message>
    <message>
        <source>no</source>
        <translation>nein</translation>
    </message>
    <message>
        <source>Choir</source>
        <translation>Chor</translation>
    </message>
    <message>
        <source>Silenced</source>
        <translation>Abgestellt</translation>
    </message>
    <message>
        <source>Buff</source>
        <translation>Lautenzug</translation>
    </message>
    <message>
        <source>Strings</source>
        <translation>Saiten</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>Material</source>
        <translation>Werkstoff</translation>
    </message>
    <message>
        <source>Length
mm</source>
        <translation>Länge
mm</translation>
    </message>
    <message>
        <source>Wire
mm</source>
        <translation>Draht
mm</translation>
    </message>
    <message>
        <source>Tension
N</source>
        <translation>Zugkraft
N</translation>
    </message>
    <message>
        <source>Stress
MPa</source>
        <translation>Spannung
MPa</translation>
    </message>
    <message>
        <source>Breaks above
semitones</source>
        <translation>Reißt über
Halbtönen</translation>
    </message>
    <message>
        <source>Inharm.
10⁻⁶</source>
        <translation>Inharm.
10⁻⁶</translation>
    </message>
    <message>
        <source>Pin 1°
up to ct</source>
        <translation>Je Grad
bis ct</translation>
    </message>
    <message>
        <source>! %1</source>
        <translation>! %1</translation>
    </message>
    <message>
        <source>String</source>
        <translation>Saite</translation>
    </message>
    <message>
        <source>Moves, cents</source>
        <translation>Bewegt sich, Cent</translation>
    </message>
    <message>
        <source>Breaks above now</source>
        <translation>Reißt jetzt über</translation>
    </message>
    <message>
        <source>Then</source>
        <translation>Dann</translation>
    </message>
    <message>
        <source>lute, dogleg</source>
        <translation>Laute, Dogleg</translation>
    </message>
    <message>
        <source>Travel
mm</source>
        <translation>Tastengang
mm</translation>
    </message>
    <message>
        <source>Pin
row</source>
        <translation>Wirbel-
reihe</translation>
    </message>
    <message>
        <source>Pin
place</source>
        <translation>Wirbel-
platz</translation>
    </message>
    <message>
        <source>as they</source>
        <translation>wie sie</translation>
    </message>
    <message>
        <source>%1 % more</source>
        <translation>%1 % mehr</translation>
    </message>
    <message>
        <source>%1 % less</source>
        <translation>%1 % weniger</translation>
    </message>
    <message>
        <source>shorter by %1 %, moves less under the plectrum</source>
        <translation>um %1 % kürzer, weicht unter dem Kiel weniger aus</translation>
    </message>
    <message>
        <source>longer by %1 %, moves more under the plectrum</source>
        <translation>um %1 % länger, weicht unter dem Kiel mehr aus</translation>
    </message>
    <message>
        <source>stiffer: its octaves come out wider</source>
        <translation>steifer: ihre Oktaven werden weiter</translation>
    </message>
    <message>
        <source>less stiff than they</source>
        <translation>weniger steif als sie</translation>
    </message>
    <message>
        <source>another material than beside it</source>
        <translation>anderes Material als daneben</translation>
    </message>
    <message>
        <source>like its neighbours</source>
        <translation>wie ihre Nachbarn</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>Against
neighbours</source>
        <translation>Gegen
Nachbarn</translation>
    </message>
    <message>
        <source>%1 (as before)</source>
        <translation>%1 (wie bisher)</translation>
    </message>
</context>
<context>
    <name>InstrumentText</name>
    <message>
        <source>no coupler</source>
        <translation>keine Koppel</translation>
    </message>
    <message>
        <source>shove coupler</source>
        <translation>Schiebekoppel</translation>
    </message>
    <message>
        <source>coupler by a lever</source>
        <translation>Koppel mit Hebel</translation>
    </message>
    <message>
        <source>dogleg jacks couple the manuals</source>
        <translation>Dogleg-Springer koppeln die Manuale</translation>
    </message>
    <message>
        <source>%1: %2 mm of %3 mm %4, %5 N, breaks %6 semitones above.</source>
        <translation>%1: %2 mm lang, %3 mm %4, %5 N, reißt %6 Halbtöne höher.</translation>
    </message>
    <message>
        <source>by a lever</source>
        <translation>per Hebel</translation>
    </message>
    <message>
        <source>by the knee</source>
        <translation>per Knie</translation>
    </message>
    <message>
        <source>by the foot</source>
        <translation>per Fuß</translation>
    </message>
    <message>
        <source>by hand at the register</source>
        <translation>von Hand</translation>
    </message>
    <message>
        <source>with a strip of felt</source>
        <translation>Filzstreifen</translation>
    </message>
    <message>
        <source>not at all</source>
        <translation>gar nicht</translation>
    </message>
    <message>
        <source>%1 to %2</source>
        <translation>%1 bis %2</translation>
    </message>
    <message>
        <source>Speaking length, mm (blue: %1; grey: the other choirs)</source>
        <translation>Klingende Länge, mm (blau: %1; grau: die anderen Chöre)</translation>
    </message>
    <message>
        <source>Tension, N</source>
        <translation>Zugkraft, N</translation>
    </message>
    <message>
        <source>Stress, % of what such wire bears (strongest to weakest)</source>
        <translation>Spannung, % dessen, was solcher Draht trägt (stärkster bis schwächster)</translation>
    </message>
    <message>
        <source>Semitones up to breaking (weakest to strongest wire)</source>
        <translation>Halbtöne bis zum Reißen (schwächster bis stärkster Draht)</translation>
    </message>
    <message>
        <source>Length, tension, stress and margin to breaking of the %1.</source>
        <translation>Länge, Zugkraft, Spannung und Abstand zum Reißen: %1.</translation>
    </message>
    <message>
        <source>%1: %2 N now, %3 N then, %4 N (%5 %)</source>
        <translation>%1: %2 N jetzt, %3 N dann, %4 N (%5 %)</translation>
    </message>
    <message>
        <source>All strings together</source>
        <translation>Alle Saiten zusammen</translation>
    </message>
    <message>
        <source>Strings move by %1 to %2 cents.</source>
        <translation>Die Saiten bewegen sich um %1 bis %2 Cent.</translation>
    </message>
    <message>
        <source>A margin is a range, not a promise: wire of one name differs, and loops, kinks, rust and age weaken it. Before the pitch of an old instrument is raised ask its maker or a conservator; the case bears the load too. Keep your eyes away from strings under tension.</source>
        <translation>Der Abstand zum Reißen ist eine Spanne, kein Versprechen: Draht gleichen Namens fällt verschieden aus, und Ösen, Knicke, Rost und Alter schwächen ihn. Bevor ein altes Instrument höher gestimmt wird, den Erbauer oder eine Restaurierungswerkstatt fragen; auch das Gehäuse trägt die Last. Augen weg von gespannten Saiten.</translation>
    </message>
    <message>
        <source>%1 (%2 %)</source>
        <translation>%1 (%2 %)</translation>
    </message>
    <message>
        <source>By the inharmonicity heard it would be %1 mm (± %2) long; if the length is right, %3 mm (± %4) thick; if both are, of %5.</source>
        <translation>Nach der gehörten Inharmonizität wäre sie %1 mm (± %2) lang; stimmt die Länge, %3 mm (± %4) dick; stimmt beides, aus %5.</translation>
    </message>
    <message>
        <source> or </source>
        <translation> oder </translation>
    </message>
    <message>
        <source>*: density, modulus, expansion or strength of this material is a value from memory; the tip over its name gives each source.</source>
        <translation>*: Dichte, Elastizitätsmodul, Ausdehnung oder Festigkeit dieses Materials ist ein Wert aus dem Gedächtnis; der Hinweis über dem Namen nennt jede Quelle.</translation>
    </message>
</context>
<context>
    <name>LaunchText</name>
    <message>
        <source>Instrument: id of a built-in one, or a file.</source>
        <translation>Instrument: Kennung eines eingebauten, oder eine Datei.</translation>
    </message>
    <message>
        <source>Choir to tune: 8, 8b, 4 or 16.</source>
        <translation>Zu stimmender Chor: 8, 8b, 4 oder 16.</translation>
    </message>
    <message>
        <source>Temperament: id of the catalogue.</source>
        <translation>Temperatur: Kennung aus dem Katalog.</translation>
    </message>
    <message>
        <source>Pitch standard, 370 to 570.</source>
        <translation>Stimmton, 370 bis 570.</translation>
    </message>
    <message>
        <source>Where sound comes from: virtual, microphone, or a recording.</source>
        <translation>Woher der Klang kommt: virtual, microphone oder eine Aufnahme.</translation>
    </message>
    <message>
        <source>Name of the microphone, as quillbench-cli devices lists it.</source>
        <translation>Name des Mikrofons, wie quillbench-cli devices ihn nennt.</translation>
    </message>
    <message>
        <source>Folder of settings and recordings in place of the platform&apos;s.</source>
        <translation>Ordner für Einstellungen und Aufnahmen anstelle des üblichen.</translation>
    </message>
    <message>
        <source>Language of the window, this time.</source>
        <translation>Sprache des Fensters, dieses Mal.</translation>
    </message>
    <message>
        <source>Write every finished reading and step as a JSON line.</source>
        <translation>Jede fertige Messung und jeden Schritt als JSON-Zeile schreiben.</translation>
    </message>
    <message>
        <source>After S seconds keep a picture of the window in the file that follows, and end.</source>
        <translation>Nach S Sekunden ein Bild des Fensters in die folgende Datei schreiben und enden.</translation>
    </message>
    <message>
        <source>--%1 %2: give a number from %3 to %4</source>
        <translation>--%1 %2: eine Zahl von %3 bis %4 angeben</translation>
    </message>
    <message>
        <source>Keeps harpsichords, spinets and virginals in tune and in regulation.</source>
        <translation>Hält Cembali, Spinette und Virginale in Stimmung und reguliert.</translation>
    </message>
    <message>
        <source>--language %1: give en or de</source>
        <translation>--language %1: en oder de angeben</translation>
    </message>
    <message>
        <source>Recordings, instruments, temperaments, exports of the logbook: each is opened in its place.</source>
        <translation>Aufnahmen, Instrumente, Temperaturen, Exporte des Logbuchs: jede Datei wird an ihrem Ort geöffnet.</translation>
    </message>
    <message>
        <source>--screenshot-after: name a file for the picture after the seconds</source>
        <translation>--screenshot-after: nach den Sekunden eine Datei für das Bild nennen</translation>
    </message>
    <message>
        <source>Hear recordings as fast as the computer can, not as they sounded.</source>
        <translation>Aufnahmen so schnell hören, wie der Rechner kann, nicht so, wie sie geklungen haben.</translation>
    </message>
</context>
<context>
    <name>LogbookText</name>
    <message>
        <source>settled</source>
        <translation>sitzt</translation>
    </message>
    <message>
        <source>kept as it was</source>
        <translation>so belassen</translation>
    </message>
    <message>
        <source>heard</source>
        <translation>gehört</translation>
    </message>
    <message>
        <source>open</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>done</source>
        <translation>fertig</translation>
    </message>
    <message>
        <source>left</source>
        <translation>verlassen</translation>
    </message>
    <message>
        <source>%1 heard</source>
        <translation>%1 gehört</translation>
    </message>
    <message>
        <source>%1 settled</source>
        <translation>%1 gestimmt</translation>
    </message>
    <message>
        <source>%1 kept</source>
        <translation>%1 belassen</translation>
    </message>
    <message>
        <source>%1 skipped</source>
        <translation>%1 übergangen</translation>
    </message>
    <message>
        <source>%1 days</source>
        <translation>%1 Tage</translation>
    </message>
    <message>
        <source>%1 weeks</source>
        <translation>%1 Wochen</translation>
    </message>
    <message>
        <source>first octave</source>
        <translation>erste Oktave</translation>
    </message>
    <message>
        <source>recheck</source>
        <translation>Nachprüfung</translation>
    </message>
    <message>
        <source>whole instrument</source>
        <translation>ganzes Instrument</translation>
    </message>
    <message>
        <source>%1 Hz</source>
        <translation>%1 Hz</translation>
    </message>
    <message>
        <source>Virtual instrument</source>
        <translation>Virtuelles Instrument</translation>
    </message>
    <message>
        <source>%1 × %2 s</source>
        <translation>%1 × %2 s</translation>
    </message>
    <message>
        <source>beats by itself, %1 a second</source>
        <translation>schwebt für sich, %1 in der Sekunde</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>%1 °C</source>
        <translation>%1 °C</translation>
    </message>
    <message>
        <source>%1 % humidity</source>
        <translation>%1 % Feuchte</translation>
    </message>
    <message>
        <source>Air</source>
        <translation>Luft</translation>
    </message>
    <message>
        <source>%1 mm</source>
        <translation>%1 mm</translation>
    </message>
    <message>
        <source>New string</source>
        <translation>Neue Saite</translation>
    </message>
    <message>
        <source>default microphone</source>
        <translation>Standardmikrofon</translation>
    </message>
    <message>
        <source>Clock</source>
        <translation>Uhr</translation>
    </message>
    <message>
        <source>%1: %2 ± %3 ppm, %4</source>
        <translation>%1: %2 ± %3 ppm, %4</translation>
    </message>
    <message>
        <source>Nothing is known yet: recheck this instrument some days after it was tuned, and what each string tends to do is learned.</source>
        <translation>Noch ist nichts bekannt: einige Tage nach dem Stimmen nachprüfen, dann zeigt sich, wozu jede Saite neigt.</translation>
    </message>
    <message>
        <source>After %1 rechecks: no retune is to be expected within a year.</source>
        <translation>Nach %1 Nachprüfungen: innerhalb eines Jahres ist kein Nachstimmen zu erwarten.</translation>
    </message>
    <message>
        <source>After %1 rechecks: a tenth of the strings will be more than 2 cents off about %2 after a tuning (%3 to %4).</source>
        <translation>Nach %1 Nachprüfungen: ein Zehntel der Saiten wird etwa %2 nach dem Stimmen um mehr als 2 Cent verstimmt sein (%3 bis %4).</translation>
    </message>
    <message>
        <source>%1: %2 %3 cents a week</source>
        <translation>%1: %2 %3 Cent je Woche</translation>
    </message>
    <message>
        <source>as the rest</source>
        <translation>wie die übrigen</translation>
    </message>
    <message>
        <source>slips again and again: does the pin hold?</source>
        <translation>rutscht immer wieder: hält der Wirbel?</translation>
    </message>
    <message>
        <source>sinks less each time: new wire stretches, or its loop tightens</source>
        <translation>sinkt jedes Mal weniger: neuer Draht dehnt sich, oder die Öse zieht sich zu</translation>
    </message>
    <message>
        <source>wanders up and down: bridge pin or jack?</source>
        <translation>schwankt auf und ab: Stegstift oder Springer?</translation>
    </message>
    <message>
        <source>by ear</source>
        <translation>nach Gehör</translation>
    </message>
    <message>
        <source>by meter</source>
        <translation>nach Anzeige</translation>
    </message>
    <message>
        <source>%1, new for %2: %3 %4</source>
        <translation>%1, seit %2 neu: %3 %4</translation>
    </message>
</context>
<context>
    <name>MapText</name>
    <message>
        <source>place</source>
        <translation>Aufstellung</translation>
    </message>
    <message>
        <source>weak</source>
        <translation>schwach</translation>
    </message>
    <message>
        <source>loud</source>
        <translation>laut</translation>
    </message>
    <message>
        <source>dull</source>
        <translation>dumpf</translation>
    </message>
    <message>
        <source>bright</source>
        <translation>hell</translation>
    </message>
    <message>
        <source>noisy</source>
        <translation>Geräusch</translation>
    </message>
    <message>
        <source>short</source>
        <translation>kurz</translation>
    </message>
    <message>
        <source>together</source>
        <translation>zugleich</translation>
    </message>
    <message>
        <source>order</source>
        <translation>Folge</translation>
    </message>
    <message>
        <source>late</source>
        <translation>spät</translation>
    </message>
    <message>
        <source>silent</source>
        <translation>stumm</translation>
    </message>
    <message>
        <source>rings on</source>
        <translation>klingt nach</translation>
    </message>
    <message>
        <source>slow</source>
        <translation>langsam</translation>
    </message>
    <message>
        <source>partial</source>
        <translation>teilweise</translation>
    </message>
    <message>
        <source>Strength against the neighbours, dB; the band is what nobody minds</source>
        <translation>Stärke gegenüber den Nachbarn, dB; das Band stört niemanden</translation>
    </message>
    <message>
        <source>%1 dB in strength, %2 plucks</source>
        <translation>%1 dB Stärke, %2 Anrisse</translation>
    </message>
    <message>
        <source>Time until the string has stopped, ms</source>
        <translation>Zeit, bis die Saite verstummt ist, ms</translation>
    </message>
    <message>
        <source>%1 ms; usual %2 ms</source>
        <translation>%1 ms; üblich %2 ms</translation>
    </message>
    <message>
        <source>no damper heard</source>
        <translation>kein Dämpfer gehört</translation>
    </message>
    <message>
        <source>Plucks as the key goes down slowly, ms after the first</source>
        <translation>Anrisse bei langsam gedrückter Taste, ms nach dem ersten</translation>
    </message>
    <message>
        <source>, then </source>
        <translation>, dann </translation>
    </message>
    <message>
        <source>Strokes that plucked, of ten</source>
        <translation>Anschläge, die anrissen, von zehn</translation>
    </message>
    <message>
        <source>%1 of %2, %3 a second</source>
        <translation>%1 von %2, %3 je Sekunde</translation>
    </message>
    <message>
        <source>hangs</source>
        <translation>hängt</translation>
    </message>
    <message>
        <source>misses</source>
        <translation>setzt aus</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <translation>%1 %2</translation>
    </message>
    <message>
        <source>%1 of %2 keys heard. %3</source>
        <translation>%1 von %2 Tasten gehört. %3</translation>
    </message>
    <message>
        <source>Nothing to look at.</source>
        <translation>Nichts anzusehen.</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>Strength against the neighbours, dB: shown once more keys were heard</source>
        <translation>Stärke gegenüber den Nachbarn, dB: erscheint, sobald mehr Tasten gehört sind</translation>
    </message>
    <message>
        <source>early</source>
        <translation>zu früh</translation>
    </message>
</context>
<context>
    <name>PictureText</name>
    <message>
        <source>%1 cents, %2</source>
        <translation>%1 Cent, %2</translation>
    </message>
    <message>
        <source>%1 of %2 strings settled</source>
        <translation>%1 von %2 Saiten gestimmt</translation>
    </message>
    <message>
        <source>; %1 is asked for</source>
        <translation>; gewünscht: %1</translation>
    </message>
    <message>
        <source>%1: by ear, covered</source>
        <translation>%1: nach Gehör, verdeckt</translation>
    </message>
    <message>
        <source>%1: nothing heard yet</source>
        <translation>%1: noch nichts gehört</translation>
    </message>
    <message>
        <source>%1 has settled: the two wires lie together, tied</source>
        <translation>%1 sitzt: die zwei Drähte liegen beisammen, verknotet</translation>
    </message>
    <message>
        <source>%1: %2 cents %3</source>
        <translation>%1: %2 Cent %3</translation>
    </message>
    <message>
        <source>not recognised</source>
        <translation>nicht erkannt</translation>
    </message>
    <message>
        <source>%1, target %2</source>
        <translation>%1, Ziel %2</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>by ear: covered until you accept it</source>
        <translation>nach Gehör: verdeckt, bis angenommen</translation>
    </message>
    <message>
        <source>not heard yet</source>
        <translation>noch nicht gehört</translation>
    </message>
</context>
<context>
    <name>PositionWords</name>
    <message>
        <source>as built</source>
        <translation>wie gebaut</translation>
    </message>
    <message>
        <source>a semitone</source>
        <translation>ein Halbton</translation>
    </message>
    <message>
        <source>%1 semitones</source>
        <translation>%1 Halbtöne</translation>
    </message>
    <message>
        <source>%1 up</source>
        <translation>%1 höher</translation>
    </message>
    <message>
        <source>%1 down</source>
        <translation>%1 tiefer</translation>
    </message>
    <message>
        <source>%1–%2 %3</source>
        <translation>%1–%2 %3</translation>
    </message>
    <message>
        <source>%1 Hz, %2%3; widest thirds %4 cents</source>
        <translation>%1 Hz, %2%3; weiteste Terzen %4 Cent</translation>
    </message>
    <message>
        <source>, tuned here</source>
        <translation>, hier gestimmt</translation>
    </message>
</context>
<context>
    <name>PractisePictureText</name>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>done once: not clear yet</source>
        <translation>einmal geübt: noch nicht klar</translation>
    </message>
    <message>
        <source>done %1 times: not clear yet</source>
        <translation>%1-mal geübt: noch nicht klar</translation>
    </message>
    <message>
        <source>%1 (%2 to %3)</source>
        <translation>%1 (%2 bis %3)</translation>
    </message>
    <message>
        <source>d MMM</source>
        <translation>d. MMM</translation>
    </message>
    <message>
        <source>%1 settings in %2 sittings</source>
        <translation>%1 Einstellungen in %2 Sitzungen</translation>
    </message>
    <message>
        <source>none to be seen; within %1 cents of right (%2)</source>
        <translation>nicht zu erkennen; innerhalb %1 Cent richtig (%2)</translation>
    </message>
    <message>
        <source>sharp of still</source>
        <translation>höher als still</translation>
    </message>
    <message>
        <source>flat of still</source>
        <translation>tiefer als still</translation>
    </message>
    <message>
        <source>wider than wanted</source>
        <translation>weiter als gewünscht</translation>
    </message>
    <message>
        <source>narrower than wanted</source>
        <translation>enger als gewünscht</translation>
    </message>
    <message>
        <source>your %1 lies %2 cents (%3 to %4) %5 (%6)</source>
        <translation>%1 liegt %2 Cent (%3 bis %4) %5 (%6)</translation>
    </message>
    <message>
        <source>Habit at practice: %1.</source>
        <translation>Gewohnheit beim Üben: %1.</translation>
    </message>
    <message>
        <source>Habit in sessions by ear: %1.</source>
        <translation>Gewohnheit beim Stimmen nach Gehör: %1.</translation>
    </message>
    <message>
        <source>beats a second that are counted right three times of four</source>
        <translation>Schwebungen je Sekunde, die drei von vier Malen richtig gezählt werden</translation>
    </message>
    <message>
        <source>cents from pure told right three times of four</source>
        <translation>Cent von rein, die drei von vier Malen richtig gesagt werden</translation>
    </message>
    <message>
        <source>by how many percent a beat must be faster to be told three times of four</source>
        <translation>um wie viel Prozent eine Schwebung schneller sein muss, um drei von vier Malen erkannt zu werden</translation>
    </message>
    <message>
        <source>beats a second within which three of four settings lie</source>
        <translation>Schwebungen je Sekunde, innerhalb derer drei von vier Einstellungen liegen</translation>
    </message>
    <message>
        <source>beats a second; a tap is %1 of them</source>
        <translation>Schwebungen je Sekunde; ein Tippen gilt für %1</translation>
    </message>
    <message>
        <source>beats a second</source>
        <translation>Schwebungen je Sekunde</translation>
    </message>
    <message>
        <source>beats a second, the first, then the second</source>
        <translation>Schwebungen je Sekunde, erst die eine, dann die andere</translation>
    </message>
    <message>
        <source>still</source>
        <translation>still</translation>
    </message>
    <message>
        <source>measured</source>
        <translation>gemessen</translation>
    </message>
    <message>
        <source>beats a second, %1</source>
        <translation>Schwebungen je Sekunde, %1</translation>
    </message>
    <message>
        <source>%1 beats a second, %2</source>
        <translation>%1 Schwebungen je Sekunde, %2</translation>
    </message>
    <message>
        <source>Covered until you have answered.</source>
        <translation>Verdeckt bis zur Antwort.</translation>
    </message>
    <message>
        <source>The breath at a third of its speed.</source>
        <translation>Der Atem, auf ein Drittel verlangsamt.</translation>
    </message>
    <message>
        <source>partials %1 : %2</source>
        <translation>Teiltöne %1 : %2</translation>
    </message>
    <message>
        <source>; your taps above</source>
        <translation>; darüber das Getippte</translation>
    </message>
    <message>
        <source>; the first sound</source>
        <translation>; der erste Klang</translation>
    </message>
    <message>
        <source>%1 crests in %2 seconds</source>
        <translation>%1 Wellenberge in %2 Sekunden</translation>
    </message>
    <message>
        <source>%1 %2–%3, %4</source>
        <translation>%1 %2–%3, %4</translation>
    </message>
    <message>
        <source>set</source>
        <translation>gelegt</translation>
    </message>
    <message>
        <source>check</source>
        <translation>Probe</translation>
    </message>
    <message>
        <source>Where your ear stands</source>
        <translation>Wo das Ohr steht</translation>
    </message>
    <message>
        <source>%1: %2 (%3)</source>
        <translation>%1: %2 (%3)</translation>
    </message>
    <message>
        <source>%1–%2</source>
        <translation>%1–%2</translation>
    </message>
    <message>
        <source>Week by week: %1</source>
        <translation>Woche für Woche: %1</translation>
    </message>
    <message>
        <source>After the first answers a bar stands here for each interval and register.</source>
        <translation>Nach den ersten Antworten steht hier ein Balken für jedes Intervall und jede Lage.</translation>
    </message>
    <message>
        <source>%1. %2</source>
        <translation>%1. %2</translation>
    </message>
    <message>
        <source>%1: the week before %2, the last %3.</source>
        <translation>%1: die Woche davor %2, die letzte %3.</translation>
    </message>
</context>
<context>
    <name>PractiseText</name>
    <message>
        <source>Return plays. Tap the space bar or any letter with every beat.</source>
        <translation>Eingabetaste spielt. Bei jeder Schwebung die Leertaste oder einen Buchstaben tippen.</translation>
    </message>
    <message>
        <source>The breath at a third of its speed: a tone swells as the beat does. F5 plays the strings; tap with them.</source>
        <translation>Der Atem, auf ein Drittel verlangsamt: ein Ton schwillt mit der Schwebung. F5 spielt die Saiten; dazu tippen.</translation>
    </message>
    <message>
        <source>Tap with the beat: space bar or any letter.</source>
        <translation>Mit der Schwebung tippen: Leertaste oder ein Buchstabe.</translation>
    </message>
    <message>
        <source>It has faded. F5 plays it again; tap at least three times.</source>
        <translation>Es ist verklungen. F5 spielt noch einmal; mindestens dreimal tippen.</translation>
    </message>
    <message>
        <source>Taps: %1. Return when your count is steady.</source>
        <translation>Getippt: %1. Eingabetaste, wenn gleichmäßig gezählt ist.</translation>
    </message>
    <message>
        <source>Return plays. Is the upper string wide or narrow of pure?</source>
        <translation>Eingabetaste spielt. Ist die obere Saite weiter oder enger als rein?</translation>
    </message>
    <message>
        <source>W wide, N narrow. ↑ ↓ turn the pin a hair: raising a wide string quickens the beat, raising a narrow one slows it. Space plucks again.</source>
        <translation>W weit, N eng. ↑ ↓ drehen den Wirbel eine Spur: eine weite Saite schwebt beim Höherdrehen schneller, eine enge langsamer. Leertaste reißt neu an.</translation>
    </message>
    <message>
        <source>Leave it %1 beats a second %2 (%3).</source>
        <translation>%1 Schwebungen je Sekunde %2 lassen (%3).</translation>
    </message>
    <message>
        <source>wide</source>
        <translation>weit</translation>
    </message>
    <message>
        <source>narrow</source>
        <translation>eng</translation>
    </message>
    <message>
        <source>Bring the upper string to stillness.</source>
        <translation>Die obere Saite zur Ruhe bringen.</translation>
    </message>
    <message>
        <source>Return plays.</source>
        <translation>Eingabetaste spielt.</translation>
    </message>
    <message>
        <source>↑ ↓ turn the pin, Shift turns more, L lets the hammer go, space plucks. Come from above. Return when content.</source>
        <translation>↑ ↓ drehen den Wirbel, mit Umschalt mehr, L lässt den Stimmhammer los, Leertaste reißt an. Von oben kommen. Eingabetaste, wenn es gut ist.</translation>
    </message>
    <message>
        <source>Return plays two sounds. Which one beats faster?</source>
        <translation>Eingabetaste spielt zwei Klänge. Welcher schwebt schneller?</translation>
    </message>
    <message>
        <source>1: the first was faster. 2: the second. F5 plays both again.</source>
        <translation>1: der erste war schneller. 2: der zweite. F5 spielt beide noch einmal.</translation>
    </message>
    <message>
        <source>The first …</source>
        <translation>Der erste …</translation>
    </message>
    <message>
        <source>Step %1 of %2.</source>
        <translation>Schritt %1 von %2.</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>%1 Check %2 with %3: %4. Return goes on, Backspace back.</source>
        <translation>%1 Probe: %2 mit %3: %4. Eingabetaste geht weiter, Rücktaste zurück.</translation>
    </message>
    <message>
        <source>%1 Set %2 from the fork (the second 8′ sounds it): %3.</source>
        <translation>%1 %2 nach der Stimmgabel legen (der 8′ II gibt sie): %3.</translation>
    </message>
    <message>
        <source>%1 Set %2 with %3: %4.</source>
        <translation>%1 %2 an %3 legen: %4.</translation>
    </message>
    <message>
        <source>With %1 it shall then feel alike.</source>
        <translation>Mit %1 soll es sich dann gleich anfühlen.</translation>
    </message>
    <message>
        <source>The bearings are laid. Farthest off: a step by %1 cents, a note by %2. Pins settled: %3 of %4. Return begins another.</source>
        <translation>Die Temperatur ist gelegt. Am weitesten ab: ein Schritt um %1 Cent, ein Ton um %2. Wirbel sitzen: %3 von %4. Eingabetaste beginnt eine neue.</translation>
    </message>
    <message>
        <source>still</source>
        <translation>still</translation>
    </message>
    <message>
        <source>%1 beats a second %2</source>
        <translation>%1 Schwebungen je Sekunde %2</translation>
    </message>
    <message>
        <source>On your instrument: %1 (%2). The first of them alone for a second, then both; let them ring. Return begins.</source>
        <translation>Auf dem eigenen Instrument: %1 (%2). Erst die erste Saite allein, eine Sekunde lang, dann beide; klingen lassen. Eingabetaste beginnt.</translation>
    </message>
    <message>
        <source>On your instrument: %1 (%2). The lower string alone for a second, then both; let them ring. Return begins.</source>
        <translation>Auf dem eigenen Instrument: %1 (%2). Erst die untere Saite allein, eine Sekunde lang, dann beide; klingen lassen. Eingabetaste beginnt.</translation>
    </message>
    <message>
        <source>Heard two other strings. Wanted: %1 (%2).</source>
        <translation>Zwei andere Saiten gehört. Gewünscht: %1 (%2).</translation>
    </message>
    <message>
        <source>Play %1 once more and let both ring for three seconds.</source>
        <translation>%1 noch einmal spielen und beide drei Sekunden klingen lassen.</translation>
    </message>
    <message>
        <source>Play %1 and tap with the beat. Taps: %2. Return shows.</source>
        <translation>%1 spielen und mit der Schwebung tippen. Getippt: %2. Eingabetaste zeigt.</translation>
    </message>
    <message>
        <source>Play %1. Is the upper string wide or narrow of pure? W, N.</source>
        <translation>%1 spielen. Ist die obere Saite weiter oder enger als rein? W weit, N eng.</translation>
    </message>
    <message>
        <source>Make %1 %2, by ear, small turns, a little down first. Hand off, play both, Return when content.</source>
        <translation>%1 nach Gehör einstellen: %2. Kleine Drehungen, zuerst etwas nachlassen. Loslassen, beide spielen, Eingabetaste, wenn es gut ist.</translation>
    </message>
    <message>
        <source>You counted %1 %2</source>
        <translation>Gezählt: %1 %2</translation>
    </message>
    <message>
        <source>%1: right.</source>
        <translation>%1: richtig.</translation>
    </message>
    <message>
        <source>%1: too fast.</source>
        <translation>%1: zu schnell.</translation>
    </message>
    <message>
        <source>%1: too slow.</source>
        <translation>%1: zu langsam.</translation>
    </message>
    <message>
        <source>%1: a true beat, but of partials that beat %2 times as fast. Not judged; listen lower.</source>
        <translation>%1: eine wirkliche Schwebung, aber von Teiltönen, die %2-mal so schnell schweben. Nicht bewertet; tiefer hinhören.</translation>
    </message>
    <message>
        <source>%1: too uneven to judge. Tap longer.</source>
        <translation>%1: zu ungleichmäßig zum Bewerten. Länger tippen.</translation>
    </message>
    <message>
        <source>Wanted: %1.</source>
        <translation>Gewünscht: %1.</translation>
    </message>
    <message>
        <source>Came down into place</source>
        <translation>Von oben gesetzt</translation>
    </message>
    <message>
        <source>Came up into place (from above it sits firmer)</source>
        <translation>Von unten gekommen (von oben sitzt es fester)</translation>
    </message>
    <message>
        <source>; settled.</source>
        <translation>; sitzt.</translation>
    </message>
    <message>
        <source>; not settled: let the hammer go (L), pluck, then judge.</source>
        <translation>; sitzt nicht: Stimmhammer loslassen (L), anreißen, dann urteilen.</translation>
    </message>
    <message>
        <source>It stood %1 cents above: on an old instrument a string could break.</source>
        <translation>Die Saite stand %1 Cent zu hoch: auf einem alten Instrument könnte sie reißen.</translation>
    </message>
    <message>
        <source>Count</source>
        <translation>Zählen</translation>
    </message>
    <message>
        <source>Which way</source>
        <translation>Weit/eng</translation>
    </message>
    <message>
        <source>Bring together</source>
        <translation>Einstimmen</translation>
    </message>
    <message>
        <source>Compare</source>
        <translation>Vergleichen</translation>
    </message>
    <message>
        <source>Leave a little</source>
        <translation>Temperieren</translation>
    </message>
    <message>
        <source>unison</source>
        <translation>Einklang</translation>
    </message>
    <message>
        <source>4′ to 8′</source>
        <translation>4′ zu 8′</translation>
    </message>
    <message>
        <source>octave</source>
        <translation>Oktave</translation>
    </message>
    <message>
        <source>fifth</source>
        <translation>Quinte</translation>
    </message>
    <message>
        <source>fourth</source>
        <translation>Quarte</translation>
    </message>
    <message>
        <source>major third</source>
        <translation>große Terz</translation>
    </message>
    <message>
        <source>major sixth</source>
        <translation>große Sexte</translation>
    </message>
    <message>
        <source>minor third</source>
        <translation>kleine Terz</translation>
    </message>
    <message>
        <source>minor sixth</source>
        <translation>kleine Sexte</translation>
    </message>
    <message>
        <source>bass</source>
        <translation>Bass</translation>
    </message>
    <message>
        <source>tenor</source>
        <translation>Tenor</translation>
    </message>
    <message>
        <source>middle</source>
        <translation>Mitte</translation>
    </message>
    <message>
        <source>treble</source>
        <translation>Diskant</translation>
    </message>
    <message>
        <source>%1–%2</source>
        <translation>%1–%2</translation>
    </message>
    <message>
        <source>A 4′ that sounds with its 8′ from one key cannot be heard apart yet. Choose another interval.</source>
        <translation>Ein 4′, der mit seinem 8′ von einer Taste klingt, ist noch nicht auseinanderzuhalten. Ein anderes Intervall wählen.</translation>
    </message>
    <message>
        <source>Your instrument has no strings for this. Choose another interval or register.</source>
        <translation>Das eigene Instrument hat dafür keine Saiten. Ein anderes Intervall oder eine andere Lage wählen.</translation>
    </message>
    <message>
        <source>Nothing to leave here in this temperament. Choose another interval, register or temperament.</source>
        <translation>In dieser Temperatur ist hier nichts zu temperieren. Ein anderes Intervall, eine andere Lage oder Temperatur wählen.</translation>
    </message>
    <message>
        <source>Measuring what you heard …</source>
        <translation>Das Gehörte wird gemessen …</translation>
    </message>
    <message>
        <source>Return: the next one.</source>
        <translation>Eingabetaste: die nächste Aufgabe.</translation>
    </message>
    <message>
        <source>F5 plays it again, Return the next one.</source>
        <translation>F5 spielt noch einmal, Eingabetaste die nächste Aufgabe.</translation>
    </message>
    <message>
        <source>The analysis was not sure of what you played: not judged.</source>
        <translation>Die Messung war sich des Gespielten nicht sicher: nicht bewertet.</translation>
    </message>
    <message>
        <source>It was still, neither wide nor narrow: not judged.</source>
        <translation>Es war still, weder weit noch eng: nicht bewertet.</translation>
    </message>
    <message>
        <source>You said %1: %2.</source>
        <translation>Antwort %1: %2.</translation>
    </message>
    <message>
        <source>right</source>
        <translation>richtig</translation>
    </message>
    <message>
        <source>wrong</source>
        <translation>falsch</translation>
    </message>
    <message>
        <source>%1, then %2 beats a second. You said the %3: %4.</source>
        <translation>%1, dann %2 Schwebungen je Sekunde. Antwort: %3 – %4.</translation>
    </message>
    <message>
        <source>second</source>
        <translation>der zweite</translation>
    </message>
    <message>
        <source>first</source>
        <translation>der erste</translation>
    </message>
    <message>
        <source>With a hint: not counted.</source>
        <translation>Mit Hilfe: zählt nicht.</translation>
    </message>
    <message>
        <source>Judged by the strings&apos; own motion: the analysis was not sure, it read %1.</source>
        <translation>Bewertet nach der Bewegung der Saiten selbst: die Messung war nicht sicher, sie las %1.</translation>
    </message>
    <message>
        <source>Judged by the strings&apos; own motion: the analysis heard no two strings.</source>
        <translation>Bewertet nach der Bewegung der Saiten selbst: die Messung hörte keine zwei Saiten.</translation>
    </message>
    <message>
        <source>Listen at partial %1 of the 8′ with partial %2 of the other string, near %3.</source>
        <translation>Hinhören auf Teilton %1 des 8′ mit Teilton %2 der anderen Saite, bei %3.</translation>
    </message>
    <message>
        <source>Listen at partial %1 of %2 with partial %3 of %4, near %5.</source>
        <translation>Hinhören auf Teilton %1 von %2 mit Teilton %3 von %4, bei %5.</translation>
    </message>
</context>
<context>
    <name>PrintText</name>
    <message>
        <source>%1: cannot be written (%2); choose another place</source>
        <translation>%1: lässt sich nicht schreiben (%2); einen anderen Ort wählen</translation>
    </message>
    <message>
        <source>Nothing can be printed there: choose another printer or file.</source>
        <translation>Dort lässt sich nichts drucken: einen anderen Drucker oder eine andere Datei wählen.</translation>
    </message>
    <message>
        <source>The paper or the disk ran out while printing: print it again.</source>
        <translation>Papier oder Platte gingen beim Drucken aus: noch einmal drucken.</translation>
    </message>
    <message>
        <source>Sent to the printer %1.</source>
        <translation>An den Drucker %1 gesandt.</translation>
    </message>
    <message>
        <source>Written: %1</source>
        <translation>Geschrieben: %1</translation>
    </message>
</context>
<context>
    <name>QPlatformTheme</name>
    <message>
        <source>OK</source>
        <translation>OK</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>&amp;Yes</source>
        <translation>&amp;Ja</translation>
    </message>
    <message>
        <source>&amp;No</source>
        <translation>&amp;Nein</translation>
    </message>
    <message>
        <source>Save</source>
        <translation>Speichern</translation>
    </message>
    <message>
        <source>Open</source>
        <translation>Öffnen</translation>
    </message>
    <message>
        <source>Discard</source>
        <translation>Verwerfen</translation>
    </message>
    <message>
        <source>Help</source>
        <translation>Hilfe</translation>
    </message>
</context>
<context>
    <name>ReaderText</name>
    <message>
        <source>Nothing has been kept yet.</source>
        <translation>Noch ist nichts festgehalten.</translation>
    </message>
    <message>
        <source>%1, %2, %3</source>
        <translation>%1, %2, %3</translation>
    </message>
    <message>
        <source>The description of this instrument cannot be read.</source>
        <translation>Die Beschreibung dieses Instruments ist nicht lesbar.</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <translation>%1 %2</translation>
    </message>
</context>
<context>
    <name>ReportText</name>
    <message>
        <source>%1, page %2 of %3</source>
        <translation>%1, Seite %2 von %3</translation>
    </message>
</context>
<context>
    <name>SettlingText</name>
    <message>
        <source>%1 cents (%2 to %3)</source>
        <translation>%1 Cent (%2 bis %3)</translation>
    </message>
    <message>
        <source>in %1 (%2 to %3)</source>
        <translation>in %1 (%2 bis %3)</translation>
    </message>
    <message>
        <source>%1 min</source>
        <translation>%1 min</translation>
    </message>
    <message>
        <source>%1 h</source>
        <translation>%1 h</translation>
    </message>
    <message>
        <source>%1 days</source>
        <translation>%1 Tagen</translation>
    </message>
    <message>
        <source>%1 weeks</source>
        <translation>%1 Wochen</translation>
    </message>
    <message>
        <source>a year or more</source>
        <translation>einem Jahr oder mehr</translation>
    </message>
    <message>
        <source>A new string here sinks by %1 in its first day, by %2 from then to its tenth.</source>
        <translation>Eine neue Saite sinkt hier am ersten Tag um %1, von da bis zum zehnten um %2.</translation>
    </message>
    <message>
        <source>Nothing is learned yet: common practice, no source. Write new strings into the logbook and recheck them.</source>
        <translation>Noch nichts gelernt: übliche Praxis, ohne Quelle. Neue Saiten ins Logbuch schreiben und nachprüfen.</translation>
    </message>
    <message>
        <source>Learned from %1 new strings of the logbook, looked at %2 times.</source>
        <translation>Gelernt aus %1 neuen Saiten des Logbuchs, %2-mal nachgesehen.</translation>
    </message>
    <message>
        <source>now</source>
        <translation>jetzt</translation>
    </message>
    <message>
        <source>It sinks by less than 2 cents in a fortnight: leave it to the ordinary tunings.</source>
        <translation>Sie sinkt in zwei Wochen um weniger als 2 Cent: den gewöhnlichen Stimmungen überlassen.</translation>
    </message>
    <message>
        <source>From %1 after it was put on (%2 to %3) it sinks by less than 2 cents in a fortnight.</source>
        <translation>Ab %1 nach dem Aufziehen (%2 bis %3) sinkt sie in zwei Wochen um weniger als 2 Cent.</translation>
    </message>
    <message>
        <source>Bring it up again %1; each time it has sunk by about 5 cents.</source>
        <translation>Wieder hochstimmen: %1; jedes Mal ist sie um etwa 5 Cent gesunken.</translation>
    </message>
    <message>
        <source>, then </source>
        <translation>, dann </translation>
    </message>
    <message>
        <source>By now it is likely to stand %1 below where it was set.</source>
        <translation>Inzwischen steht sie wohl %1 unter dem, worauf sie gestimmt war.</translation>
    </message>
</context>
<context>
    <name>SheetText</name>
    <message>
        <source>Worksheet, %1</source>
        <translation>Arbeitsblatt, %1</translation>
    </message>
    <message>
        <source>Climate, register travel, keyboard height and cleaning come before any jack; a plectrum is cut last and never on one day&apos;s evidence. Keep your eyes away from the strings. Stop at resistance: adjusting screws are brittle. A historical instrument is for a maker or conservator.</source>
        <translation>Klima, Registerweg, Höhe der Klaviatur und Reinigen kommen vor jedem Springer; ein Kiel wird als Letztes geschnitten und nie auf den Befund eines einzigen Tages hin. Augen weg von den Saiten. Bei Widerstand aufhören: Stellschrauben sind spröde. Ein historisches Instrument ist Sache des Instrumentenbauers oder der Restaurierung.</translation>
    </message>
    <message>
        <source>%1 more are left out: so many are no fault of single jacks.</source>
        <translation>%1 weitere sind weggelassen: so viele sind kein Fehler einzelner Springer.</translation>
    </message>
    <message>
        <source>Jacks to do: %1</source>
        <translation>Zu richtende Springer: %1</translation>
    </message>
    <message>
        <source>Nothing stood out among the keys that were heard.</source>
        <translation>Unter den gehörten Tasten fiel nichts auf.</translation>
    </message>
</context>
<context>
    <name>SoundText</name>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>%1: not started</source>
        <translation>%1: nicht begonnen</translation>
    </message>
    <message>
        <source>%1: starting</source>
        <translation>%1: beginnt</translation>
    </message>
    <message>
        <source>%1: listening</source>
        <translation>%1: hört zu</translation>
    </message>
    <message>
        <source>%1 sends nothing</source>
        <translation>%1 sendet nichts</translation>
    </message>
    <message>
        <source>%1 is lost, it is tried again every second; the session is kept</source>
        <translation>%1 ist weg, jede Sekunde ein neuer Versuch; die Sitzung bleibt erhalten</translation>
    </message>
    <message>
        <source>%1 is back, waiting for its sound</source>
        <translation>%1 ist wieder da, warten auf Klang</translation>
    </message>
    <message>
        <source>%1: heard to its end</source>
        <translation>%1: bis zum Ende gehört</translation>
    </message>
    <message>
        <source>%1 cannot be used</source>
        <translation>%1 ist nicht zu gebrauchen</translation>
    </message>
    <message>
        <source>Too loud, the sound is clipped: lower the input level or move the microphone away a little.</source>
        <translation>Zu laut, der Klang ist übersteuert: Eingangspegel senken oder das Mikrofon etwas weiter weg stellen.</translation>
    </message>
    <message>
        <source>The microphone changes its own level: turn off automatic gain in the sound settings.</source>
        <translation>Das Mikrofon regelt seinen Pegel selbst: automatische Verstärkung in den Klangeinstellungen abschalten.</translation>
    </message>
    <message>
        <source>The sound is cut between notes: turn off noise suppression in the sound settings.</source>
        <translation>Der Klang wird zwischen den Tönen abgeschnitten: Rauschunterdrückung in den Klangeinstellungen abschalten.</translation>
    </message>
    <message>
        <source>Two strings sound: is another register on?</source>
        <translation>Zwei Saiten klingen: ist noch ein Register eingeschaltet?</translation>
    </message>
    <message>
        <source>A silenced string rings along: a strip of felt between its neighbours cures it.</source>
        <translation>Eine abgestellte Saite klingt mit: ein Filzstreifen zwischen ihren Nachbarn hilft.</translation>
    </message>
    <message>
        <source>This string beats by itself: that cannot be tuned away.</source>
        <translation>Diese Saite schwebt für sich: das lässt sich nicht wegstimmen.</translation>
    </message>
    <message>
        <source>The sound was clipped.</source>
        <translation>Der Klang war übersteuert.</translation>
    </message>
    <message>
        <source>Much noise: the reading is less sure.</source>
        <translation>Viel Geräusch: die Messung ist weniger sicher.</translation>
    </message>
    <message>
        <source>Far from its target, at the edge of what is looked at.</source>
        <translation>Weit vom Ziel, am Rand dessen, was untersucht wird.</translation>
    </message>
</context>
<context>
    <name>SpokenText</name>
    <message>
        <source> foot</source>
        <translation> Fuß</translation>
    </message>
    <message>
        <source> sharp </source>
        <translation> Kreuz </translation>
    </message>
    <message>
        <source> flat </source>
        <translation> Be </translation>
    </message>
    <message>
        <source>minus </source>
        <translation>minus </translation>
    </message>
    <message>
        <source> degrees</source>
        <translation> Grad</translation>
    </message>
    <message>
        <source>%1 one-line</source>
        <translation>%1 eingestrichen</translation>
    </message>
    <message>
        <source>%1 two-line</source>
        <translation>%1 zweigestrichen</translation>
    </message>
    <message>
        <source>%1 three-line</source>
        <translation>%1 dreigestrichen</translation>
    </message>
    <message>
        <source>%1 four-line</source>
        <translation>%1 viergestrichen</translation>
    </message>
    <message>
        <source>contra %1</source>
        <translation>Kontra %1</translation>
    </message>
    <message>
        <source>sub-contra %1</source>
        <translation>Subkontra %1</translation>
    </message>
    <message>
        <source>great %1</source>
        <translation>groß %1</translation>
    </message>
    <message>
        <source>small %1</source>
        <translation>klein %1</translation>
    </message>
</context>
<context>
    <name>StepText</name>
    <message>
        <source>%1 and %2</source>
        <translation>%1 und %2</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>%1 on, everything else off</source>
        <translation>%1 ein, alles andere aus</translation>
    </message>
    <message>
        <source>%1 on</source>
        <translation>%1 ein</translation>
    </message>
    <message>
        <source>%1, manuals coupled</source>
        <translation>%1, Manuale gekoppelt</translation>
    </message>
    <message>
        <source>%1, the keyboard moved by %2</source>
        <translation>%1, Klaviatur um %2 verschoben</translation>
    </message>
    <message>
        <source>%1; felt between the strings of %2</source>
        <translation>%1; Filz zwischen die Saiten: %2</translation>
    </message>
    <message>
        <source>unison</source>
        <translation>Einklang</translation>
    </message>
    <message>
        <source>minor third</source>
        <translation>kleine Terz</translation>
    </message>
    <message>
        <source>major third</source>
        <translation>große Terz</translation>
    </message>
    <message>
        <source>fourth</source>
        <translation>Quarte</translation>
    </message>
    <message>
        <source>fifth</source>
        <translation>Quinte</translation>
    </message>
    <message>
        <source>minor sixth</source>
        <translation>kleine Sexte</translation>
    </message>
    <message>
        <source>major sixth</source>
        <translation>große Sexte</translation>
    </message>
    <message>
        <source>octave</source>
        <translation>Oktave</translation>
    </message>
    <message>
        <source>minor tenth</source>
        <translation>kleine Dezime</translation>
    </message>
    <message>
        <source>tenth</source>
        <translation>Dezime</translation>
    </message>
    <message>
        <source>twelfth</source>
        <translation>Duodezime</translation>
    </message>
    <message>
        <source>double octave</source>
        <translation>Doppeloktave</translation>
    </message>
    <message>
        <source>seventeenth</source>
        <translation>Septdezime</translation>
    </message>
    <message>
        <source>nineteenth</source>
        <translation>Nondezime</translation>
    </message>
    <message>
        <source>no beat</source>
        <translation>keine Schwebung</translation>
    </message>
    <message>
        <source>slightly wide, a beat in %1 seconds</source>
        <translation>etwas weit, eine Schwebung in %1 Sekunden</translation>
    </message>
    <message>
        <source>slightly narrow, a beat in %1 seconds</source>
        <translation>etwas eng, eine Schwebung in %1 Sekunden</translation>
    </message>
    <message>
        <source>wide, about %1 beats a second</source>
        <translation>weit, etwa %1 Schwebungen je Sekunde</translation>
    </message>
    <message>
        <source>narrow, about %1 beats a second</source>
        <translation>eng, etwa %1 Schwebungen je Sekunde</translation>
    </message>
    <message>
        <source>%1, %2 with %3: %4</source>
        <translation>%1, %2 mit %3: %4</translation>
    </message>
    <message>
        <source>%1 with %2: %3, %4</source>
        <translation>%1 mit %2: %3, %4</translation>
    </message>
    <message>
        <source>Run-through of the %1: every key once. Play %2.</source>
        <translation>%1 durchspielen: jede Taste einmal. %2 spielen.</translation>
    </message>
    <message>
        <source>Sentinel notes, to hear whether the ground moves. Play %1 on the %2.</source>
        <translation>Kontrolltöne, um zu hören, ob sich der Grund bewegt. %1 auf %2 spielen.</translation>
    </message>
    <message>
        <source>Where does the %1 stand? Play %2.</source>
        <translation>Wo steht %1? %2 spielen.</translation>
    </message>
    <message>
        <source>Recheck of the %1, a second a note. Play %2.</source>
        <translation>%1 nachprüfen, ein Ton je Sekunde. %2 spielen.</translation>
    </message>
    <message>
        <source>run-through</source>
        <translation>Durchspielen</translation>
    </message>
    <message>
        <source>sentinel notes</source>
        <translation>Kontrolltöne</translation>
    </message>
    <message>
        <source>first look</source>
        <translation>erster Blick</translation>
    </message>
    <message>
        <source>rough pass</source>
        <translation>Vorstimmen</translation>
    </message>
    <message>
        <source>bearings</source>
        <translation>Temperaturlegung</translation>
    </message>
    <message>
        <source>octaves</source>
        <translation>Oktaven</translation>
    </message>
    <message>
        <source>unisons</source>
        <translation>Einklänge</translation>
    </message>
    <message>
        <source>4′</source>
        <translation>4′</translation>
    </message>
    <message>
        <source>16′</source>
        <translation>16′</translation>
    </message>
    <message>
        <source>recheck</source>
        <translation>Nachprüfung</translation>
    </message>
</context>
<context>
    <name>StoreText</name>
    <message>
        <source>%1 cannot be read</source>
        <translation>%1 lässt sich nicht lesen</translation>
    </message>
    <message>
        <source>%1 is no worksheet</source>
        <translation>%1 ist kein Arbeitsblatt</translation>
    </message>
    <message>
        <source>%1 was written by a newer version</source>
        <translation>%1 wurde von einer neueren Version geschrieben</translation>
    </message>
    <message>
        <source>%1 cannot be written (%2); make room or the folder writable, else the worksheet is lost</source>
        <translation>%1 lässt sich nicht schreiben (%2); Platz schaffen oder den Ordner beschreibbar machen, sonst geht das Arbeitsblatt verloren</translation>
    </message>
    <message>
        <source>%1; it is left as it is, and this worksheet is not kept until it is moved away</source>
        <translation>%1; die Datei bleibt, wie sie ist, und dieses Arbeitsblatt wird erst aufbewahrt, wenn sie woanders liegt</translation>
    </message>
</context>
<context>
    <name>StringReport</name>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>Material</source>
        <translation>Werkstoff</translation>
    </message>
    <message>
        <source>Pin: row, place</source>
        <translation>Wirbel: Reihe, Platz</translation>
    </message>
    <message>
        <source>Length, mm</source>
        <translation>Länge, mm</translation>
    </message>
    <message>
        <source>Wire, mm</source>
        <translation>Draht, mm</translation>
    </message>
    <message>
        <source>Tension, N</source>
        <translation>Zugkraft, N</translation>
    </message>
    <message>
        <source>Stress, MPa</source>
        <translation>Spannung, MPa</translation>
    </message>
    <message>
        <source>Breaks above, semitones</source>
        <translation>Reißt darüber, Halbtöne</translation>
    </message>
    <message>
        <source>String list, %1</source>
        <translation>Saitenliste, %1</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>Computed at a′ = %1 in equal temperament</source>
        <translation>Berechnet für a′ = %1, gleichstufig</translation>
    </message>
</context>
<context>
    <name>TemperamentCard</name>
    <message>
        <source>cents*</source>
        <translation>Cent*</translation>
    </message>
    <message>
        <source>Hz</source>
        <translation>Hz</translation>
    </message>
    <message>
        <source>%1. %2
</source>
        <translation>%1. %2
</translation>
    </message>
    <message>
        <source>a′ = %1</source>
        <translation>a′ = %1</translation>
    </message>
    <message>
        <source>The bearings</source>
        <translation>Stimmplan</translation>
    </message>
    <message>
        <source>* from equal temperament, A = 0. P Pythagorean comma, S syntonic comma; below each fraction its cents.</source>
        <translation>* gegenüber gleichstufig, A = 0. P pythagoreisches Komma, S syntonisches Komma; unter jedem Bruch seine Cent.</translation>
    </message>
</context>
<context>
    <name>TemperamentTables</name>
    <message>
        <source>Note</source>
        <translation>Ton</translation>
    </message>
    <message>
        <source>Cents
above C</source>
        <translation>Cent
über C</translation>
    </message>
    <message>
        <source>From equal
A = 0</source>
        <translation>Gegen gleich-
stufig, A = 0</translation>
    </message>
    <message>
        <source>Octave 4
Hz</source>
        <translation>Eingestr.
Oktave, Hz</translation>
    </message>
    <message>
        <source>The other
A = 0</source>
        <translation>Die andere
A = 0</translation>
    </message>
    <message>
        <source>Difference</source>
        <translation>Unterschied</translation>
    </message>
    <message>
        <source>On</source>
        <translation>Auf</translation>
    </message>
    <message>
        <source>Fifth</source>
        <translation>Quinte</translation>
    </message>
    <message>
        <source>Heard
cents</source>
        <translation>Gehört
Cent</translation>
    </message>
    <message>
        <source>Nearest
cents</source>
        <translation>Nächste
Cent</translation>
    </message>
    <message>
        <source>Differs by</source>
        <translation>Unterschied</translation>
    </message>
    <message>
        <source>Nearest</source>
        <translation>Nächste</translation>
    </message>
    <message>
        <source>Cents away</source>
        <translation>Cent entfernt</translation>
    </message>
    <message>
        <source>a′</source>
        <translation>a′</translation>
    </message>
</context>
<context>
    <name>TemperamentText</name>
    <message>
        <source>beatless</source>
        <translation>schwebungsfrei</translation>
    </message>
    <message>
        <source>all but beatless, a hair wide</source>
        <translation>fast schwebungsfrei, eine Spur weit</translation>
    </message>
    <message>
        <source>all but beatless, a hair narrow</source>
        <translation>fast schwebungsfrei, eine Spur eng</translation>
    </message>
    <message>
        <source>%1 beats a second wide (one in %2 s)</source>
        <translation>%1 Schwebungen je Sekunde weit (eine in %2 s)</translation>
    </message>
    <message>
        <source>%1 beats a second narrow (one in %2 s)</source>
        <translation>%1 Schwebungen je Sekunde eng (eine in %2 s)</translation>
    </message>
    <message>
        <source>%1 beats a second wide</source>
        <translation>%1 Schwebungen je Sekunde weit</translation>
    </message>
    <message>
        <source>%1 beats a second narrow</source>
        <translation>%1 Schwebungen je Sekunde eng</translation>
    </message>
    <message>
        <source>Set %1 to the pitch standard, %2, without beats.</source>
        <translation>%1 nach dem Stimmton legen, %2, schwebungsfrei.</translation>
    </message>
    <message>
        <source>Set %1, %2, from %3 of the pitch standard (%4), without beats.</source>
        <translation>%1, %2, nach %3 des Stimmtons (%4) legen, schwebungsfrei.</translation>
    </message>
    <message>
        <source>Tune %1 above %2 (%3)</source>
        <translation>%1 über %2 stimmen (%3)</translation>
    </message>
    <message>
        <source>Tune %1 below %2 (%3)</source>
        <translation>%1 unter %2 stimmen (%3)</translation>
    </message>
    <message>
        <source>%1: beatless.</source>
        <translation>%1: schwebungsfrei.</translation>
    </message>
    <message>
        <source>%1: it beats too fast to count; set it by the meter.</source>
        <translation>%1: schwebt zu schnell zum Zählen; nach der Anzeige stimmen.</translation>
    </message>
    <message>
        <source>%1: %2. First pure, then %3 a little higher.</source>
        <translation>%1: %2. Erst rein, dann %3 etwas höher.</translation>
    </message>
    <message>
        <source>%1: %2. First pure, then %3 a little lower.</source>
        <translation>%1: %2. Erst rein, dann %3 etwas tiefer.</translation>
    </message>
    <message>
        <source>Checked against a text that quotes the source.</source>
        <translation>An einem Text geprüft, der die Quelle zitiert.</translation>
    </message>
    <message>
        <source>Checked in part; the rest from memory.</source>
        <translation>Teilweise geprüft; der Rest aus dem Gedächtnis.</translation>
    </message>
    <message>
        <source>Written down from memory, not looked up.</source>
        <translation>Aus dem Gedächtnis niedergeschrieben, nicht nachgeschlagen.</translation>
    </message>
    <message>
        <source>Made at this bench.</source>
        <translation>An dieser Werkbank entstanden.</translation>
    </message>
    <message>
        <source>P</source>
        <translation>P</translation>
    </message>
    <message>
        <source>S</source>
        <translation>S</translation>
    </message>
    <message>
        <source>%1 ct</source>
        <translation>%1 ct</translation>
    </message>
    <message>
        <source>pure</source>
        <translation>rein</translation>
    </message>
    <message>
        <source>%1–%2 %3</source>
        <translation>%1–%2 %3</translation>
    </message>
    <message>
        <source>does not close: %1 ct</source>
        <translation>schließt nicht: %1 ct</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>%1 %2 cents, %3 beats a second</source>
        <translation>%1 %2 Cent, %3 Schwebungen je Sekunde</translation>
    </message>
    <message>
        <source>; </source>
        <translation>; </translation>
    </message>
    <message>
        <source>%1. %2</source>
        <translation>%1. %2</translation>
    </message>
    <message>
        <source>Disputed: %1</source>
        <translation>Umstritten: %1</translation>
    </message>
    <message>
        <source>%1 %2</source>
        <translation>%1 %2</translation>
    </message>
    <message>
        <source>For now, tune %1 above %2 (%3), beatless; it is corrected later.</source>
        <translation>Vorläufig %1 über %2 stimmen (%3), schwebungsfrei; wird später berichtigt.</translation>
    </message>
    <message>
        <source>For now, tune %1 below %2 (%3), beatless; it is corrected later.</source>
        <translation>Vorläufig %1 unter %2 stimmen (%3), schwebungsfrei; wird später berichtigt.</translation>
    </message>
    <message>
        <source>Set %1 so that the %2 with %3 and the %4 with %5 feel alike: %6, and %7.</source>
        <translation>%1 so legen, dass %2 mit %3 und %4 mit %5 sich gleich anfühlen: %6, und %7.</translation>
    </message>
    <message>
        <source>Check %1–%2 (%3): %4.</source>
        <translation>Probe %1–%2 (%3): %4.</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>None of the catalogue. The nearest is %1.</source>
        <translation>Keine des Katalogs. Am nächsten liegt %1.</translation>
    </message>
    <message>
        <source>%1, or another one that cannot be told from it: those written in ink below.</source>
        <translation>%1, oder eine andere, die davon nicht zu unterscheiden ist: die unten mit Tinte geschriebenen.</translation>
    </message>
    <message>
        <source>%1.</source>
        <translation>%1.</translation>
    </message>
    <message>
        <source>At a′ = %1 %2 cents, the twelve notes lie %3 %4 cents from it in the mean; furthest is %5, %6 cents.</source>
        <translation>Bei a′ = %1 %2 Cent liegen die zwölf Töne im Mittel %3 %4 Cent davon entfernt; am weitesten %5, %6 Cent.</translation>
    </message>
</context>
<context>
    <name>TranslationText</name>
    <message>
        <source>en</source>
        <extracomment>Code of the language this is translated into.</extracomment>
        <translation>de</translation>
    </message>
</context>
<context>
    <name>TuningReport</name>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Temperament</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>a′</source>
        <translation>a′</translation>
    </message>
    <message>
        <source>Strings</source>
        <translation>Saiten</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Stand</translation>
    </message>
    <message>
        <source>Sound from</source>
        <translation>Klang von</translation>
    </message>
    <message>
        <source>Rechecked</source>
        <translation>Nachgeprüft</translation>
    </message>
    <message>
        <source>Choir</source>
        <translation>Chor</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>How</source>
        <translation>Wie</translation>
    </message>
    <message>
        <source>Before, cents</source>
        <translation>Vorher, Cent</translation>
    </message>
    <message>
        <source>After, cents</source>
        <translation>Nachher, Cent</translation>
    </message>
    <message>
        <source>±</source>
        <translation>±</translation>
    </message>
    <message>
        <source>Since, cents</source>
        <translation>Seither, Cent</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>Written down of this instrument</source>
        <translation>Zu diesem Instrument notiert</translation>
    </message>
    <message>
        <source>When</source>
        <translation>Wann</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>String</source>
        <translation>Saite</translation>
    </message>
    <message>
        <source>Text</source>
        <translation>Text</translation>
    </message>
    <message>
        <source>Cents from what the temperament wants of each string, + sharp; the ± is one standard deviation. Readings are sustain pitches: a plucked string starts sharp and sinks for a second or two. Before: where the string was first heard in the session.</source>
        <translation>Cent von dem, was die Temperatur von jeder Saite verlangt, + zu hoch; ± ist eine Standardabweichung. Gemessen ist die Tonhöhe des Ausklangs: Eine gezupfte Saite beginnt zu hoch und sinkt ein, zwei Sekunden lang. Vorher: wo die Saite in der Sitzung zuerst gehört wurde.</translation>
    </message>
    <message>
        <source>Session</source>
        <translation>Sitzung</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Tuning report: %1</source>
        <translation>Stimmbericht: %1</translation>
    </message>
</context>
<context>
    <name>VoiceStoreText</name>
    <message>
        <source>%1; it is left as it is, and nothing is kept for comparison until it is moved away</source>
        <translation>%1; sie bleibt, wie sie ist, und zum Vergleich wird nichts aufgehoben, bis sie anderswo liegt</translation>
    </message>
    <message>
        <source>%1 cannot be read</source>
        <translation>%1 lässt sich nicht lesen</translation>
    </message>
    <message>
        <source>%1 holds no passes of a register</source>
        <translation>%1 enthält keine Durchgänge eines Registers</translation>
    </message>
    <message>
        <source>%1 was written by a newer version</source>
        <translation>%1 wurde von einer neueren Version geschrieben</translation>
    </message>
    <message>
        <source>%1 cannot be written (%2); make room or the folder writable, else this pass is lost</source>
        <translation>%1 lässt sich nicht schreiben (%2); Platz schaffen oder den Ordner beschreibbar machen, sonst geht dieser Durchgang verloren</translation>
    </message>
</context>
<context>
    <name>WholeText</name>
    <message>
        <source>So many keys at once are no fault of single jacks: think of the weather, then of how far the register travels, then of the keyboard&apos;s height, before any jack.</source>
        <translation>So viele Tasten auf einmal sind kein Fehler einzelner Springer: zuerst an das Wetter denken, dann an den Weg des Registers, dann an die Höhe der Klaviatur, und erst danach an Springer.</translation>
    </message>
    <message>
        <source>%1 then %2, %3 ms apart</source>
        <translation>%1, dann %2, %3 ms Abstand</translation>
    </message>
    <message>
        <source>%2 before %1 over the whole keyboard</source>
        <translation>%2 vor %1 auf der ganzen Klaviatur</translation>
    </message>
    <message>
        <source>%1 with %2 over the whole keyboard</source>
        <translation>%1 zugleich mit %2 auf der ganzen Klaviatur</translation>
    </message>
    <message>
        <source>%1 close to %2 over the whole keyboard (%3 ms)</source>
        <translation>%1 nah an %2 auf der ganzen Klaviatur (%3 ms)</translation>
    </message>
    <message>
        <source>%1 far from %2 over the whole keyboard (%3 ms)</source>
        <translation>%1 weit von %2 auf der ganzen Klaviatur (%3 ms)</translation>
    </message>
    <message>
        <source>; </source>
        <translation>; </translation>
    </message>
    <message>
        <source>The whole register is uneven: keys scatter by %1 dB. Move the microphone and hear it again before any plectrum is touched.</source>
        <translation>Das ganze Register ist ungleich: die Tasten streuen um %1 dB. Das Mikrofon versetzen und noch einmal hören, bevor ein Kiel angerührt wird.</translation>
    </message>
    <message>
        <source>The register is even to %1 dB; one pluck repeats to %2 dB.</source>
        <translation>Das Register ist auf %1 dB gleichmäßig; ein Anriss wiederholt sich auf %2 dB.</translation>
    </message>
    <message>
        <source>Most dampers do not reach their strings. </source>
        <translation>Die meisten Dämpfer erreichen ihre Saiten nicht. </translation>
    </message>
    <message>
        <source>Strings stop in %1 to %2 ms (half of the keys).</source>
        <translation>Die Saiten verstummen in %1 bis %2 ms (die Hälfte der Tasten).</translation>
    </message>
    <message>
        <source>%1 dB (± %2) in strength against its neighbours</source>
        <translation>%1 dB (± %2) Stärke gegenüber den Nachbarn</translation>
    </message>
    <message>
        <source>%1 dB (± %2) in loudness (A) against its neighbours</source>
        <translation>%1 dB (± %2) Lautstärke (A) gegenüber den Nachbarn</translation>
    </message>
    <message>
        <source>the string is displaced by %1 dB (± %2) against its neighbours</source>
        <translation>Auslenkung der Saite %1 dB (± %2) gegenüber den Nachbarn</translation>
    </message>
    <message>
        <source>%1 dB (± %2) in length of tone against its neighbours (−3 dB: half)</source>
        <translation>%1 dB (± %2) Tondauer gegenüber den Nachbarn (−3 dB: halb so lang)</translation>
    </message>
    <message>
        <source>no damper heard in %1 plucks</source>
        <translation>in %1 Anrissen kein Dämpfer gehört</translation>
    </message>
    <message>
        <source>stops in %1 ms, its neighbours in %2 ms</source>
        <translation>verstummt in %1 ms, die Nachbarn in %2 ms</translation>
    </message>
    <message>
        <source>%1 of %2 strokes plucked, at %3 a second</source>
        <translation>%1 von %2 Anschlägen rissen an, bei %3 je Sekunde</translation>
    </message>
    <message>
        <source>plucks in the order %1</source>
        <translation>reißt an in der Folge %1</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
</context>
<context>
    <name>quillbench::ActionMapView</name>
    <message>
        <source>Map over the keyboard</source>
        <translation>Karte über der Klaviatur</translation>
    </message>
    <message>
        <source>heard twice or more</source>
        <translation>zweimal oder öfter gehört</translation>
    </message>
    <message>
        <source>heard once: play again</source>
        <translation>einmal gehört: noch einmal spielen</translation>
    </message>
    <message>
        <source>worth a look</source>
        <translation>sehenswert</translation>
    </message>
    <message>
        <source>not heard yet</source>
        <translation>noch nicht gehört</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
</context>
<context>
    <name>quillbench::ActionModel</name>
    <message>
        <source>That was not recognised: play it again, one key alone.</source>
        <translation>Das wurde nicht erkannt: noch einmal spielen, eine Taste allein.</translation>
    </message>
    <message>
        <source>%1 was too loud for the microphone: move it back, play again.</source>
        <translation>%1 war zu laut für das Mikrofon: weiter weg stellen, noch einmal spielen.</translation>
    </message>
    <message>
        <source>%1 was too short or not clear: hold it a second.</source>
        <translation>%1 war zu kurz oder nicht klar: eine Sekunde halten.</translation>
    </message>
    <message>
        <source>Too quick after the last: leave a second of silence after each key.</source>
        <translation>Zu rasch nach dem letzten: nach jeder Taste eine Sekunde Stille lassen.</translation>
    </message>
    <message>
        <source>No damper was heard on %1: strike it short, and let go.</source>
        <translation>Bei %1 wurde kein Dämpfer gehört: kurz anschlagen und loslassen.</translation>
    </message>
    <message>
        <source>%1: %2 of %3 plucks.</source>
        <translation>%1: %2 von %3 Anrissen.</translation>
    </message>
    <message>
        <source>No pluck was heard: press %1 again, slowly.</source>
        <translation>Kein Anriss gehört: %1 noch einmal langsam niederdrücken.</translation>
    </message>
    <message>
        <source>%1 Play it with each register alone first, then which is which is surer.</source>
        <translation>%1 Zuerst mit jedem Register einzeln spielen, dann ist sicherer, welcher welcher ist.</translation>
    </message>
</context>
<context>
    <name>quillbench::ActionPage</name>
    <message>
        <source>Action</source>
        <translation>Mechanik</translation>
    </message>
    <message>
        <source>What the whole register does</source>
        <translation>Was das ganze Register tut</translation>
    </message>
    <message>
        <source>Stagger</source>
        <translation>Staffelung</translation>
    </message>
    <message>
        <source>Which register plucks when, as a key goes down slowly</source>
        <translation>Welches Register wann anreißt, wenn eine Taste langsam niedergeht</translation>
    </message>
    <message>
        <source>Evenness</source>
        <translation>Ausgleich</translation>
    </message>
    <message>
        <source>How loud and bright each key of one register is</source>
        <translation>Wie laut und hell jede Taste eines Registers ist</translation>
    </message>
    <message>
        <source>Dampers</source>
        <translation>Dämpfer</translation>
    </message>
    <message>
        <source>How soon each string stops when its key is let go</source>
        <translation>Wie bald jede Saite nach dem Loslassen der Taste verstummt</translation>
    </message>
    <message>
        <source>Repetition</source>
        <translation>Repetition</translation>
    </message>
    <message>
        <source>Whether a key plucks every time it is struck</source>
        <translation>Ob eine Taste bei jedem Anschlag anreißt</translation>
    </message>
    <message>
        <source>Kept: %1, %2 keys.</source>
        <translation>Aufgehoben: %1, %2 Tasten.</translation>
    </message>
</context>
<context>
    <name>quillbench::ActionTools</name>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>Microphone moved</source>
        <translation>Mikrofon versetzt</translation>
    </message>
    <message>
        <source>The microphone stands half a metre from where it stood: play the keys again</source>
        <translation>Das Mikrofon steht einen halben Meter neben seinem früheren Platz: die Tasten noch einmal spielen</translation>
    </message>
    <message>
        <source>Keep for comparison</source>
        <translation>Zum Vergleich aufheben</translation>
    </message>
    <message>
        <source>Keep how this register sounds today, to see what its plectra lose</source>
        <translation>Aufheben, wie dieses Register heute klingt, um zu sehen, was seine Kiele verlieren</translation>
    </message>
    <message>
        <source>Faults to find</source>
        <translation>Fehler zum Üben</translation>
    </message>
    <message>
        <source>Give the virtual instrument faults, for practice</source>
        <translation>Gibt dem virtuellen Instrument Fehler, zum Üben</translation>
    </message>
    <message>
        <source>Begin again</source>
        <translation>Von vorn</translation>
    </message>
    <message>
        <source>Forget what was measured here with these registers</source>
        <translation>Vergisst, was hier mit diesen Registern gemessen wurde</translation>
    </message>
    <message>
        <source>Print…</source>
        <translation>Drucken…</translation>
    </message>
    <message>
        <source>The worksheet on one page</source>
        <translation>Das Arbeitsblatt auf einer Seite</translation>
    </message>
    <message>
        <source>Remove done</source>
        <translation>Erledigtes entfernen</translation>
    </message>
    <message>
        <source>Take what is done off the worksheet</source>
        <translation>Erledigtes vom Arbeitsblatt nehmen</translation>
    </message>
</context>
<context>
    <name>quillbench::Application</name>
    <message>
        <source>Nothing is kept in the logbook: %1</source>
        <translation>Im Logbuch wird nichts festgehalten: %1</translation>
    </message>
    <message>
        <source>Virtual instrument</source>
        <translation>Virtuelles Instrument</translation>
    </message>
    <message>
        <source>Microphone</source>
        <translation>Mikrofon</translation>
    </message>
    <message>
        <source>Listen to a recording</source>
        <translation>Eine Aufnahme anhören</translation>
    </message>
    <message>
        <source>Sound (*.wav *.flac *.aiff *.aif *.ogg);;All files (*)</source>
        <translation>Klang (*.wav *.flac *.aiff *.aif *.ogg);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>The clock&apos;s calibration is kept</source>
        <translation>Die Kalibrierung der Uhr ist übernommen</translation>
    </message>
    <message>
        <source>Kept %1 s in %2</source>
        <translation>%1 s aufgenommen in %2</translation>
    </message>
    <message>
        <source>Recording; F9 ends it</source>
        <translation>Aufnahme läuft; F9 beendet sie</translation>
    </message>
    <message>
        <source>Nothing can speak here: install speech-dispatcher and a voice (on Debian: apt install speech-dispatcher espeak-ng), then choose this again.</source>
        <translation>Hier kann nichts sprechen: speech-dispatcher und eine Stimme installieren (unter Debian: apt install speech-dispatcher espeak-ng), dann noch einmal wählen.</translation>
    </message>
    <message>
        <source>Counts from the next session on (%1 begins it); the one under way keeps its plan.</source>
        <translation>Gilt ab der nächsten Sitzung (%1 beginnt sie); die laufende behält ihren Plan.</translation>
    </message>
    <message>
        <source>%1 %2 cents</source>
        <translation>%1 %2 Cent</translation>
    </message>
    <message>
        <source>Kept: %1. A first look offers it.</source>
        <translation>Festgehalten: %1. Ein erster Blick bietet es an.</translation>
    </message>
    <message>
        <source>Tuned at what was heard: %1</source>
        <translation>Gestimmt wird auf das Gehörte: %1</translation>
    </message>
</context>
<context>
    <name>quillbench::BearingTable</name>
    <message>
        <source>What came of each step</source>
        <translation>Was aus jedem Schritt wurde</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Schritt</translation>
    </message>
    <message>
        <source>Wanted, a second</source>
        <translation>Gewünscht, je s</translation>
    </message>
    <message>
        <source>Left, a second</source>
        <translation>Geblieben, je s</translation>
    </message>
    <message>
        <source>Left, cents</source>
        <translation>Geblieben, Cent</translation>
    </message>
    <message>
        <source>Note, cents</source>
        <translation>Ton, Cent</translation>
    </message>
    <message>
        <source>All steps</source>
        <translation>Alle Schritte</translation>
    </message>
</context>
<context>
    <name>quillbench::BearingsPanel</name>
    <message>
        <source>Bearing plan</source>
        <translation>Stimmplan</translation>
    </message>
    <message>
        <source>Steps of the bearing plan</source>
        <translation>Schritte des Stimmplans</translation>
    </message>
    <message>
        <source>Hear this step (Return)</source>
        <translation>Diesen Schritt hören (Eingabetaste)</translation>
    </message>
    <message>
        <source>Its two strings on the virtual instrument, as they sound when the step is done</source>
        <translation>Seine beiden Saiten auf dem virtuellen Instrument, wie sie klingen, wenn der Schritt getan ist</translation>
    </message>
    <message>
        <source>computed: the least counting</source>
        <translation>berechnet: am wenigsten zu zählen</translation>
    </message>
    <message>
        <source>%1. %2</source>
        <translation>%1. %2</translation>
    </message>
</context>
<context>
    <name>quillbench::BreathView</name>
    <message>
        <source>The breath of two strings</source>
        <translation>Der Atem zweier Saiten</translation>
    </message>
    <message>
        <source>pluck</source>
        <translation>Anriss</translation>
    </message>
    <message>
        <source>%1 s</source>
        <translation>%1 s</translation>
    </message>
</context>
<context>
    <name>quillbench::BuildPanel</name>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>&amp;Maker</source>
        <translation>Er&amp;bauer</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Standard a′</source>
        <translation>Stimmton a′</translation>
    </message>
    <message>
        <source>Lowest octave</source>
        <translation>Tiefste Oktave</translation>
    </message>
    <message>
        <source>Lowest key</source>
        <translation>Tiefste Taste</translation>
    </message>
    <message>
        <source>Highest key</source>
        <translation>Höchste Taste</translation>
    </message>
    <message>
        <source>&amp;Keyboard at</source>
        <translation>&amp;Klaviatur bei</translation>
    </message>
    <message>
        <source>Manuals</source>
        <translation>Manuale</translation>
    </message>
    <message>
        <source>Coupler</source>
        <translation>Koppel</translation>
    </message>
    <message>
        <source>Buff on</source>
        <translation>Lautenzug an</translation>
    </message>
    <message>
        <source>Semitones by which a keyboard that slides changes what a key sounds; 0 where its standard holds</source>
        <translation>Halbtöne, um die eine verschiebbare Klaviatur den Klang einer Taste ändert; 0, wo der Stimmton gilt</translation>
    </message>
    <message>
        <source> Hz</source>
        <translation> Hz</translation>
    </message>
    <message>
        <source>chromatic</source>
        <translation>chromatisch</translation>
    </message>
    <message>
        <source>Sharps split: E♭/D♯, G♯/A♭</source>
        <translation>Geteilte Obertasten: Es/Dis, Gis/As</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keinem</translation>
    </message>
    <message>
        <source>An invented example: no such maker, place or instrument exists. Begin with the one nearest to yours, change it and save it.</source>
        <translation>Ein erfundenes Beispiel: Erbauer, Ort und Instrument gibt es nicht. Mit dem nächstliegenden beginnen, es ändern und sichern.</translation>
    </message>
    <message>
        <source>Strings of new keys and choirs lie on the line of their neighbours until you enter what you measured.</source>
        <translation>Saiten neuer Tasten und Chöre liegen auf der Linie ihrer Nachbarn, bis das Gemessene eingetragen ist.</translation>
    </message>
</context>
<context>
    <name>quillbench::CalibrationDialog</name>
    <message>
        <source>Calibrate the clock of a microphone</source>
        <translation>Die Uhr eines Mikrofons kalibrieren</translation>
    </message>
    <message>
        <source>A sound card&apos;s clock may be off by 50 parts per million, 0.09 cent. A tone whose pitch is known better than that shows by how much: the tone of a radio time signal, received by an ordinary radio in AM, or a generator locked to satellite time.</source>
        <translation>Die Uhr einer Klangkarte kann um 50 Millionstel falsch gehen, 0,09 Cent. Ein Ton, dessen Höhe genauer bekannt ist, zeigt, um wie viel: der Ton eines Zeitzeichensenders, mit einem gewöhnlichen Radio auf AM empfangen, oder ein an Satellitenzeit gebundener Generator.</translation>
    </message>
    <message>
        <source>No trusted tone: what a phone or this computer plays (their clocks are no better), a tuning fork (a degree of warmth shifts it by about 100 ppm), the hum of the mains.</source>
        <translation>Kein verlässlicher Ton: was ein Telefon oder dieser Rechner spielt (ihre Uhren sind nicht besser), eine Stimmgabel (ein Grad Wärme verschiebt sie um etwa 100 ppm), das Netzbrummen.</translation>
    </message>
    <message>
        <source> Hz</source>
        <translation> Hz</translation>
    </message>
    <message>
        <source>± </source>
        <translation>± </translation>
    </message>
    <message>
        <source> ppm</source>
        <translation> ppm</translation>
    </message>
    <message>
        <source>&amp;Listen with</source>
        <translation>Zuhören &amp;mit</translation>
    </message>
    <message>
        <source>&amp;Recorded with</source>
        <translation>&amp;Aufgenommen mit</translation>
    </message>
    <message>
        <source>&amp;Tone is stated to be</source>
        <translation>Angegebene &amp;Tonhöhe</translation>
    </message>
    <message>
        <source>&amp;and to be true to</source>
        <translation>&amp;Genauigkeit des Tons</translation>
    </message>
    <message>
        <source>&amp;Listen</source>
        <translation>&amp;Zuhören</translation>
    </message>
    <message>
        <source>&amp;Keep</source>
        <translation>&amp;Übernehmen</translation>
    </message>
    <message>
        <source>A recording of the tone</source>
        <translation>Eine Aufnahme des Tons</translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation>&amp;Anhalten</translation>
    </message>
</context>
<context>
    <name>quillbench::CataloguePanel</name>
    <message>
        <source>Catalogue of temperaments</source>
        <translation>Katalog der Temperaturen</translation>
    </message>
    <message>
        <source>%1
%2</source>
        <translation>%1
%2</translation>
    </message>
</context>
<context>
    <name>quillbench::ChangeOverPanel</name>
    <message>
        <source>%1 at %2</source>
        <translation>%1 bei %2</translation>
    </message>
    <message>
        <source>The instrument stands in this. What it costs to go to another is told here: strings, cents, minutes, the way back.</source>
        <translation>Darin steht das Instrument. Was der Wechsel zu einer anderen kostet, steht dann hier: Saiten, Cent, Minuten, der Rückweg.</translation>
    </message>
    <message>
        <source>From %1, taken as in tune, to this</source>
        <translation>Von %1, als gestimmt angenommen, hierher</translation>
    </message>
    <message>
        <source>From %1 (where %2 of %3 strings were heard) to this</source>
        <translation>Von %1 (dort %2 von %3 Saiten gehört) hierher</translation>
    </message>
    <message>
        <source>Change-over</source>
        <translation>Wechsel der Temperatur</translation>
    </message>
    <message>
        <source>A string rises far: before an old instrument is retuned ask its maker or a conservator; see Change of pitch under Instrument, and keep the eyes away from strings under tension.</source>
        <translation>Eine Saite steigt weit: bevor ein altes Instrument umgestimmt wird, Instrumentenbauer oder Restaurierung fragen; siehe Andere Stimmhöhe unter Instrument, und die Augen von gespannten Saiten fernhalten.</translation>
    </message>
    <message>
        <source>%1: every string is near enough already.</source>
        <translation>%1: jede Saite ist schon nahe genug.</translation>
    </message>
    <message>
        <source>%1: %2.</source>
        <translation>%1: %2.</translation>
    </message>
    <message>
        <source>The way back: %1.</source>
        <translation>Der Rückweg: %1.</translation>
    </message>
    <message>
        <source>%1 cents: %2; spares %3 strings, %4 min.</source>
        <translation>%1 Cent: %2; spart %3 Saiten, %4 min.</translation>
    </message>
    <message>
        <source>Shift the whole to %1</source>
        <translation>Das Ganze auf %1 schieben</translation>
    </message>
    <message>
        <source>none up</source>
        <translation>keine hinauf</translation>
    </message>
    <message>
        <source>at most %1 up</source>
        <translation>höchstens %1 hinauf</translation>
    </message>
    <message>
        <source>%1 of %2 strings, on average %3 cents, %4; %5 min</source>
        <translation>%1 von %2 Saiten, im Mittel %3 Cent, %4; %5 min</translation>
    </message>
</context>
<context>
    <name>quillbench::ChoiceBar</name>
    <message>
        <source>all, bearings %1–%2</source>
        <translation>alles, Temperatur %1–%2</translation>
    </message>
    <message>
        <source>%1–%2, from A</source>
        <translation>%1–%2, von A aus</translation>
    </message>
    <message>
        <source>%1–%2, upwards</source>
        <translation>%1–%2, aufwärts</translation>
    </message>
    <message>
        <source>&amp;Instrument</source>
        <translation>&amp;Instrument</translation>
    </message>
    <message>
        <source>&amp;Choir</source>
        <translation>&amp;Chor</translation>
    </message>
    <message>
        <source>&amp;Temperament</source>
        <translation>&amp;Temperatur</translation>
    </message>
    <message>
        <source>&amp;a′ in Hz</source>
        <translation>&amp;a′ in Hz</translation>
    </message>
    <message>
        <source>&amp;Keyboard at</source>
        <translation>&amp;Klaviatur bei</translation>
    </message>
    <message>
        <source>&amp;Part</source>
        <translation>&amp;Umfang</translation>
    </message>
    <message>
        <source>&amp;Sound from</source>
        <translation>Klan&amp;g von</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>virtual instrument</source>
        <translation>virtuell</translation>
    </message>
    <message>
        <source>microphone (default)</source>
        <translation>Mikrofon (Standard)</translation>
    </message>
    <message>
        <source>a recording…</source>
        <translation>eine Aufnahme…</translation>
    </message>
    <message>
        <source>&amp;Instr.</source>
        <translation>&amp;Instr.</translation>
    </message>
    <message>
        <source>&amp;Temper.</source>
        <translation>&amp;Temper.</translation>
    </message>
    <message>
        <source>&amp;a′</source>
        <translation>&amp;a′</translation>
    </message>
    <message>
        <source>&amp;Keys</source>
        <translation>&amp;Klav.</translation>
    </message>
    <message>
        <source>&amp;More…</source>
        <translation>&amp;Mehr…</translation>
    </message>
    <message>
        <source>More of a whole session</source>
        <translation>Mehr zum ganzen Instrument</translation>
    </message>
    <message>
        <source>Choirs left alone, order, way to the target, tolerances, felt</source>
        <translation>Ausgelassene Chöre, Reihenfolge, Weg ans Ziel, Toleranzen, Filz</translation>
    </message>
    <message>
        <source>&amp;Sound</source>
        <translation>Klan&amp;g</translation>
    </message>
    <message>
        <source>%1, as heard</source>
        <translation>%1, wie gehört</translation>
    </message>
    <message>
        <source>of another instrument…</source>
        <translation>eines anderen Instruments…</translation>
    </message>
</context>
<context>
    <name>quillbench::CircleView</name>
    <message>
        <source>Circle of fifths</source>
        <translation>Quintenzirkel</translation>
    </message>
    <message>
        <source>Left and right choose a fifth; up and down temper it by a twelfth of the comma, with Shift by a tenth of a cent; 0 makes it pure; = lets it take what is left. Or drag its mark: inwards narrow, outwards wide.</source>
        <translation>Links und rechts wählen eine Quinte; auf und ab temperieren sie um ein Zwölftel des Kommas, mit Umschalt um ein Zehntelcent; 0 macht sie rein; = lässt sie den Rest übernehmen. Oder ihre Marke ziehen: nach innen eng, nach außen weit.</translation>
    </message>
</context>
<context>
    <name>quillbench::CompassView</name>
    <message>
        <source>Strings over the compass</source>
        <translation>Saiten über dem Tonumfang</translation>
    </message>
    <message>
        <source>Blue: the choir chosen; grey: the others. Left and right go from string to string, page up and down by octaves.</source>
        <translation>Blau: der gewählte Chor; grau: die anderen. Links und rechts gehen von Saite zu Saite, Bild auf und ab um Oktaven.</translation>
    </message>
</context>
<context>
    <name>quillbench::DriftView</name>
    <message>
        <source>How the strings moved, over the keyboard</source>
        <translation>Wie sich die Saiten bewegt haben, über der Klaviatur</translation>
    </message>
    <message>
        <source>as the rest</source>
        <translation>wie die übrigen</translation>
    </message>
    <message>
        <source>moved by itself</source>
        <translation>für sich allein bewegt</translation>
    </message>
    <message>
        <source>play again</source>
        <translation>noch einmal spielen</translation>
    </message>
    <message>
        <source>never settled</source>
        <translation>nie gestimmt</translation>
    </message>
    <message>
        <source>worth the hammer</source>
        <translation>lohnt das Nachstimmen</translation>
    </message>
    <message>
        <source>%1: %2 %3 cents</source>
        <translation>%1: %2 %3 Cent</translation>
    </message>
</context>
<context>
    <name>quillbench::EntryForm</name>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>What to write down</source>
        <translation>Was festzuhalten ist</translation>
    </message>
    <message>
        <source>Choir of the string</source>
        <translation>Chor der Saite</translation>
    </message>
    <message>
        <source>Key of the string</source>
        <translation>Taste der Saite</translation>
    </message>
    <message>
        <source>&amp;Write down</source>
        <translation>&amp;Eintragen</translation>
    </message>
    <message>
        <source>Write something down</source>
        <translation>Etwas eintragen</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Temperature and humidity</source>
        <translation>Temperatur und Luftfeuchte</translation>
    </message>
    <message>
        <source>String replaced</source>
        <translation>Saite ersetzt</translation>
    </message>
    <message>
        <source>Keeps what was entered in the logbook</source>
        <translation>Hält das Eingegebene im Logbuch fest</translation>
    </message>
    <message>
        <source>false beat</source>
        <translation>falsche Schwebung</translation>
    </message>
    <message>
        <source>pin loose</source>
        <translation>Wirbel locker</translation>
    </message>
    <message>
        <source>buzzes</source>
        <translation>schnarrt</translation>
    </message>
    <message>
        <source>damper late</source>
        <translation>dämpft spät</translation>
    </message>
    <message>
        <source>plectrum worn</source>
        <translation>Kiel verschlissen</translation>
    </message>
    <message>
        <source>does not repeat</source>
        <translation>repetiert nicht</translation>
    </message>
    <message>
        <source>false beat, pin loose, or your own words</source>
        <translation>falsche Schwebung, Wirbel locker oder eigene Worte</translation>
    </message>
    <message>
        <source>Temperature</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source> °C</source>
        <translation> °C</translation>
    </message>
    <message>
        <source>Relative humidity</source>
        <translation>Relative Luftfeuchte</translation>
    </message>
    <message>
        <source> %</source>
        <translation> %</translation>
    </message>
    <message>
        <source>Humidity</source>
        <translation>Luftfeuchte</translation>
    </message>
    <message>
        <source>Diameter of the wire</source>
        <translation>Durchmesser des Drahts</translation>
    </message>
    <message>
        <source> mm</source>
        <translation> mm</translation>
    </message>
    <message>
        <source>Material of the wire</source>
        <translation>Werkstoff des Drahts</translation>
    </message>
    <message>
        <source>wire not known</source>
        <translation>Draht nicht bekannt</translation>
    </message>
    <message>
        <source>Why it was replaced</source>
        <translation>Warum sie ersetzt wurde</translation>
    </message>
    <message>
        <source>broken</source>
        <translation>gerissen</translation>
    </message>
    <message>
        <source>false</source>
        <translation>falsch</translation>
    </message>
    <message>
        <source>worn</source>
        <translation>verschlissen</translation>
    </message>
    <message>
        <source>whole instrument</source>
        <translation>ganzes Instrument</translation>
    </message>
</context>
<context>
    <name>quillbench::FaultPanel</name>
    <message>
        <source>Climate and place</source>
        <translation>Klima und Platz</translation>
    </message>
    <message>
        <source>Register travel</source>
        <translation>Registerweg</translation>
    </message>
    <message>
        <source>Keyboard height</source>
        <translation>Höhe der Klaviatur</translation>
    </message>
    <message>
        <source>Cleaning</source>
        <translation>Reinigen</translation>
    </message>
    <message>
        <source>Jack</source>
        <translation>Springer</translation>
    </message>
    <message>
        <source>Plectrum</source>
        <translation>Kiel</translation>
    </message>
    <message>
        <source>anyone</source>
        <translation>jeder</translation>
    </message>
    <message>
        <source>a careful owner</source>
        <translation>sorgsame Besitzer</translation>
    </message>
    <message>
        <source>a technician</source>
        <translation>Cembalotechniker</translation>
    </message>
    <message>
        <source>a maker or conservator</source>
        <translation>Instrumentenbauer oder Restaurierung</translation>
    </message>
    <message>
        <source>can be undone</source>
        <translation>umkehrbar</translation>
    </message>
    <message>
        <source>can be undone in part</source>
        <translation>teils umkehrbar</translation>
    </message>
    <message>
        <source>cannot be undone</source>
        <translation>nicht umkehrbar</translation>
    </message>
    <message>
        <source>Fault finder: what is wrong</source>
        <translation>Fehlersuche: was nicht stimmt</translation>
    </message>
    <message>
        <source>Causes and what to do</source>
        <translation>Ursachen und was zu tun ist</translation>
    </message>
    <message>
        <source>The fault finder&apos;s book is missing.</source>
        <translation>Das Buch der Fehlersuche fehlt.</translation>
    </message>
    <message>
        <source>Measured on %1: %2</source>
        <translation>Gemessen an %1: %2</translation>
    </message>
    <message>
        <source>Causes, the likeliest first</source>
        <translation>Ursachen, die wahrscheinlichste zuerst</translation>
    </message>
    <message>
        <source>What to do, in this order</source>
        <translation>Was zu tun ist, in dieser Reihenfolge</translation>
    </message>
    <message>
        <source>%1; %2; source: %3</source>
        <translation>%1; %2; Quelle: %3</translation>
    </message>
</context>
<context>
    <name>quillbench::FileDrop</name>
    <message>
        <source>Let go to open:</source>
        <translation>Loslassen zum Öffnen:</translation>
    </message>
</context>
<context>
    <name>quillbench::FileOpener</name>
    <message>
        <source>One of a kind at a time. Not opened: %1</source>
        <translation>Von jeder Art nur eine auf einmal. Nicht geöffnet: %1</translation>
    </message>
    <message>
        <source>%1 is a logbook. File in the place Logbook restores it as a backup.</source>
        <translation>%1 ist ein Logbuch. Am Ort Logbuch stellt Datei es als Sicherung wieder her.</translation>
    </message>
    <message>
        <source>Listening to %1</source>
        <translation>Es wird %1 gehört</translation>
    </message>
    <message>
        <source>%1 has changes that are not saved. Save it, then open %2 again.</source>
        <translation>%1 hat nicht gespeicherte Änderungen. Speichern, dann %2 noch einmal öffnen.</translation>
    </message>
    <message>
        <source>Instrument opened: %1</source>
        <translation>Instrument geöffnet: %1</translation>
    </message>
    <message>
        <source>Temperament opened: %1</source>
        <translation>Temperatur geöffnet: %1</translation>
    </message>
    <message>
        <source>Take over an export</source>
        <translation>Einen Export übernehmen</translation>
    </message>
    <message>
        <source>Take over %1 into the logbook? Nothing comes twice, and what was taken over stays.</source>
        <translation>%1 ins Logbuch übernehmen? Nichts kommt doppelt, und Übernommenes bleibt.</translation>
    </message>
    <message>
        <source>&amp;Take over</source>
        <translation>Ü&amp;bernehmen</translation>
    </message>
</context>
<context>
    <name>quillbench::FirstQuestionsDialog</name>
    <message>
        <source>Instrument</source>
        <translation>Instrument</translation>
    </message>
    <message>
        <source>Temperament</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Sound from</source>
        <translation>Klang von</translation>
    </message>
    <message>
        <source>&amp;Back</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>Three questions</source>
        <translation>Drei Fragen</translation>
    </message>
    <message>
        <source>&amp;Not now</source>
        <translation>&amp;Jetzt nicht</translation>
    </message>
    <message>
        <source>a file of your own…</source>
        <translation>eine eigene Datei…</translation>
    </message>
    <message>
        <source>1 of 3: Which instrument?</source>
        <translation>1 von 3: Welches Instrument?</translation>
    </message>
    <message>
        <source>The examples are invented; take the one that is most like yours. Its strings can be read from a list later, at the place Instrument.</source>
        <translation>Die Beispiele sind erfunden; am besten das ähnlichste wählen. Die eigenen Saiten lassen sich später unter Instrument aus einer Liste lesen.</translation>
    </message>
    <message>
        <source>Pitch of a′ in hertz</source>
        <translation>Tonhöhe von a′ in Hertz</translation>
    </message>
    <message>
        <source>2 of 3: Which pitch and temperament?</source>
        <translation>2 von 3: Welcher Stimmton, welche Temperatur?</translation>
    </message>
    <message>
        <source>The pitch at which the instrument stands already is the safe one. Before an old instrument is raised ask its maker or a conservator.</source>
        <translation>Sicher ist der Stimmton, auf dem das Instrument schon steht. Bevor ein altes Instrument höher gestimmt wird, Instrumentenbauer oder Restaurierung fragen.</translation>
    </message>
    <message>
        <source>&amp;a′ in Hz</source>
        <translation>&amp;a′ in Hz</translation>
    </message>
    <message>
        <source>3 of 3: Where does the sound come from?</source>
        <translation>3 von 3: Woher kommt der Klang?</translation>
    </message>
    <message>
        <source>The virtual instrument needs no microphone: try everything on it. A microphone stands near the strings and touches nothing.</source>
        <translation>Das virtuelle Instrument braucht kein Mikrofon: alles lässt sich daran ausprobieren. Ein Mikrofon steht nahe bei den Saiten und berührt nichts.</translation>
    </message>
    <message>
        <source>What is heard:</source>
        <translation>Zu hören:</translation>
    </message>
    <message>
        <source>the virtual instrument</source>
        <translation>das virtuelle Instrument</translation>
    </message>
    <message>
        <source>the default microphone</source>
        <translation>das Standardmikrofon</translation>
    </message>
    <message>
        <source>&amp;Ready</source>
        <translation>&amp;Fertig</translation>
    </message>
    <message>
        <source>&amp;Next</source>
        <translation>&amp;Weiter</translation>
    </message>
    <message>
        <source>A pitch of %1: give hertz from %2 to %3.</source>
        <translation>Stimmton %1: Hertz von %2 bis %3 angeben.</translation>
    </message>
    <message>
        <source>Open an instrument</source>
        <translation>Ein Instrument öffnen</translation>
    </message>
</context>
<context>
    <name>quillbench::HearPitchDialog</name>
    <message>
        <source>The pitch of another instrument</source>
        <translation>Der Stimmton eines anderen Instruments</translation>
    </message>
    <message>
        <source>Have its A held for some seconds, in any octave: an organ, an oboe, or a fork near the microphone. If all twelve notes are held one after another, A first, their mean counts.</source>
        <translation>Sein A einige Sekunden halten lassen, in beliebiger Oktave: eine Orgel, eine Oboe oder eine Stimmgabel nahe am Mikrofon. Werden alle zwölf Töne nacheinander gehalten, das A zuerst, so gilt ihr Mittel.</translation>
    </message>
    <message>
        <source>A recording of the instrument</source>
        <translation>Eine Aufnahme des Instruments</translation>
    </message>
    <message>
        <source>Listen &amp;with</source>
        <translation>Zuhören &amp;mit</translation>
    </message>
    <message>
        <source>&amp;Listen</source>
        <translation>&amp;Zuhören</translation>
    </message>
    <message>
        <source>&amp;Keep for the first look</source>
        <translation>Für den ersten Blick &amp;festhalten</translation>
    </message>
    <message>
        <source>&amp;Tune at it</source>
        <translation>&amp;Darauf stimmen</translation>
    </message>
    <message>
        <source>It stands among the pitches that are offered after a first look, for twelve hours</source>
        <translation>Zwölf Stunden lang steht er unter den Stimmtönen, die nach einem ersten Blick angeboten werden</translation>
    </message>
    <message>
        <source>Begins a session at this pitch</source>
        <translation>Beginnt eine Sitzung auf diesem Stimmton</translation>
    </message>
    <message>
        <source>Let the note sound, then listen.</source>
        <translation>Den Ton klingen lassen, dann zuhören.</translation>
    </message>
    <message>
        <source>The virtual instrument is no other one: choose a microphone, or a recording.</source>
        <translation>Das virtuelle Instrument ist kein anderes: ein Mikrofon oder eine Aufnahme wählen.</translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation>&amp;Anhalten</translation>
    </message>
</context>
<context>
    <name>quillbench::HelpPanel</name>
    <message>
        <source>Help</source>
        <translation>Hilfe</translation>
    </message>
    <message>
        <source>Close (Esc)</source>
        <translation>Schließen (Esc)</translation>
    </message>
    <message>
        <source>Close help</source>
        <translation>Hilfe schließen</translation>
    </message>
    <message>
        <source>en</source>
        <extracomment>The language of the help pages: &quot;en&quot; or &quot;de&quot;, whose files lie in resources/help.</extracomment>
        <translation>de</translation>
    </message>
    <message>
        <source>Help: %1</source>
        <translation>Hilfe: %1</translation>
    </message>
</context>
<context>
    <name>quillbench::InstrumentModel</name>
    <message>
        <source>%1: %2 rows read, %3 strings filled in from their neighbours.</source>
        <translation>%1: %2 Zeilen gelesen, %3 Saiten aus den Nachbarn ergänzt.</translation>
    </message>
    <message>
        <source>My own, after: %1</source>
        <translation>Mein eigenes, nach: %1</translation>
    </message>
</context>
<context>
    <name>quillbench::InstrumentPage</name>
    <message>
        <source>Instrument</source>
        <translation>Instrument</translation>
    </message>
    <message>
        <source>&amp;Instrument</source>
        <translation>&amp;Instrument</translation>
    </message>
    <message>
        <source>O&amp;pen…</source>
        <translation>&amp;Öffnen…</translation>
    </message>
    <message>
        <source>&amp;Tune this</source>
        <translation>Dieses sti&amp;mmen</translation>
    </message>
    <message>
        <source>&amp;Read a string list…</source>
        <translation>Saitenliste l&amp;esen…</translation>
    </message>
    <message>
        <source>A CSV file with the columns choir, key, length_mm, diameter_mm, material, pin_diameter_mm, pin_row, pin_place; only choir and key must be there, gaps are filled from the neighbours</source>
        <translation>Eine CSV-Datei mit den Spalten choir, key, length_mm, diameter_mm, material, pin_diameter_mm, pin_row, pin_place; nur choir und key müssen da sein, Lücken werden aus den Nachbarn ergänzt</translation>
    </message>
    <message>
        <source>Write the string &amp;list…</source>
        <translation>Saitenliste sch&amp;reiben…</translation>
    </message>
    <message>
        <source>Sav&amp;e as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>Choir looked at</source>
        <translation>Betrachteter Chor</translation>
    </message>
    <message>
        <source>Strin&amp;gs</source>
        <translation>Sai&amp;ten</translation>
    </message>
    <message>
        <source> Hz</source>
        <translation> Hz</translation>
    </message>
    <message>
        <source>as it is</source>
        <translation>wie es ist</translation>
    </message>
    <message>
        <source> semitones</source>
        <translation> Halbtöne</translation>
    </message>
    <message>
        <source>Name strings that &amp;keep less than</source>
        <translation>Saiten nennen, denen weniger &amp;bleibt als</translation>
    </message>
    <message>
        <source>Strings near breaking</source>
        <translation>Saiten nahe am Reißen</translation>
    </message>
    <message>
        <source>From what is tuned: a′ = %1, %2.</source>
        <translation>Vom Gestimmten aus: a′ = %1, %2.</translation>
    </message>
    <message>
        <source>From its own standard: a′ = %1, %2.</source>
        <translation>Vom eigenen Stimmton aus: a′ = %1, %2.</translation>
    </message>
    <message>
        <source>No string would keep less than %1 to the breaking of the weakest wire.</source>
        <translation>Keiner Saite blieben weniger als %1 bis zum Reißen des schwächsten Drahts.</translation>
    </message>
    <message>
        <source>Strings that would keep less than %1 to the breaking of the weakest wire: %2. In semitones:</source>
        <translation>Saiten, denen weniger als %1 bis zum Reißen des schwächsten Drahts blieben: %2. In Halbtönen:</translation>
    </message>
    <message>
        <source>Open an instrument</source>
        <translation>Ein Instrument öffnen</translation>
    </message>
    <message>
        <source>Save the instrument</source>
        <translation>Das Instrument speichern</translation>
    </message>
    <message>
        <source>Saved: %1</source>
        <translation>Gespeichert: %1</translation>
    </message>
    <message>
        <source>Read a string list</source>
        <translation>Eine Saitenliste lesen</translation>
    </message>
    <message>
        <source>String list (*.csv);;All files (*)</source>
        <translation>Saitenliste (*.csv);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Write the string list</source>
        <translation>Die Saitenliste schreiben</translation>
    </message>
    <message>
        <source>String list (*.csv)</source>
        <translation>Saitenliste (*.csv)</translation>
    </message>
    <message>
        <source>Written: %1</source>
        <translation>Geschrieben: %1</translation>
    </message>
    <message>
        <source>Un&amp;do</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Wiederholen</translation>
    </message>
    <message>
        <source>Registers &amp;and choirs</source>
        <translation>Register &amp;und Chöre</translation>
    </message>
    <message>
        <source>To a′</source>
        <translation>Auf a′</translation>
    </message>
    <message>
        <source>Temperament</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Print…</source>
        <translation>Drucken…</translation>
    </message>
    <message>
        <source>The string list, on paper or as PDF</source>
        <translation>Die Saitenliste, auf Papier oder als PDF</translation>
    </message>
    <message>
        <source>not saved yet</source>
        <translation>nicht gesichert</translation>
    </message>
    <message>
        <source>&amp;Compass</source>
        <translation>Tonumfan&amp;g</translation>
    </message>
    <message>
        <source>New string</source>
        <translation>Neue Saite</translation>
    </message>
    <message>
        <source>Change o&amp;f pitch</source>
        <translation>Andere Stimm&amp;höhe</translation>
    </message>
</context>
<context>
    <name>quillbench::KeyboardView</name>
    <message>
        <source>The keyboard with its choirs</source>
        <translation>Die Klaviatur mit ihren Chören</translation>
    </message>
    <message>
        <source>%1 of %2: %3</source>
        <translation>%1, %2: %3</translation>
    </message>
</context>
<context>
    <name>quillbench::KeysDialog</name>
    <message>
        <source> or </source>
        <translation> oder </translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Keyboard of the computer</source>
        <translation>Tastatur des Rechners</translation>
    </message>
    <message>
        <source>On the virtual instrument the computer&apos;s keyboard plays: Z S X D C V G B H N J M is the octave that is tuned from its C, Q 2 W 3 E R 5 T 6 Y 7 U I the next one. What counts is where a key lies on an English keyboard.</source>
        <translation>Auf dem virtuellen Instrument spielt die Tastatur des Rechners: Z S X D C V G B H N J M ist die gestimmte Oktave von ihrem C an, Q 2 W 3 E R 5 T 6 Y 7 U I die nächste. Es zählt, wo eine Taste auf einer englischen Tastatur liegt: auf deutschen steht Y an der Stelle von Z.</translation>
    </message>
</context>
<context>
    <name>quillbench::LevelView</name>
    <message>
        <source>Level of the sound</source>
        <translation>Pegel des Klangs</translation>
    </message>
    <message>
        <source>too loud</source>
        <translation>zu laut</translation>
    </message>
    <message>
        <source>sound is heard</source>
        <translation>Klang zu hören</translation>
    </message>
    <message>
        <source>quiet</source>
        <translation>still</translation>
    </message>
</context>
<context>
    <name>quillbench::LogbookModel</name>
    <message>
        <source>Not kept: %1</source>
        <translation>Nicht festgehalten: %1</translation>
    </message>
    <message>
        <source>The remark is kept.</source>
        <translation>Die Bemerkung ist festgehalten.</translation>
    </message>
    <message>
        <source>Temperature and humidity are kept.</source>
        <translation>Temperatur und Luftfeuchte sind festgehalten.</translation>
    </message>
    <message>
        <source>The new string is kept. A recheck no longer compares it with the old one.</source>
        <translation>Die neue Saite ist festgehalten. Nachprüfungen vergleichen sie nicht mehr mit der alten.</translation>
    </message>
    <message>
        <source>Written: %1</source>
        <translation>Geschrieben: %1</translation>
    </message>
    <message>
        <source>Written: a table a file in %1</source>
        <translation>Geschrieben: je Tabelle eine Datei in %1</translation>
    </message>
    <message>
        <source>%1 rows taken over: %2 sessions new, %3 there already</source>
        <translation>%1 Zeilen übernommen: %2 Sitzungen neu, %3 schon vorhanden</translation>
    </message>
    <message>
        <source>Copied to %1</source>
        <translation>Kopiert nach %1</translation>
    </message>
    <message>
        <source>Every row is as it was kept.</source>
        <translation>Jede Zeile ist, wie sie festgehalten wurde.</translation>
    </message>
    <message>
        <source>Damaged: %1 (%2 complaints in all)</source>
        <translation>Beschädigt: %1 (insgesamt %2 Beanstandungen)</translation>
    </message>
    <message>
        <source>The backup is in place.</source>
        <translation>Die Sicherung ist an ihrem Platz.</translation>
    </message>
    <message>
        <source>The backup is in place; what was there is now %1</source>
        <translation>Die Sicherung ist an ihrem Platz; was dort war, ist jetzt %1</translation>
    </message>
</context>
<context>
    <name>quillbench::LogbookPage</name>
    <message>
        <source>&amp;File</source>
        <translation>&amp;Datei</translation>
    </message>
    <message>
        <source>Sessions, newest first</source>
        <translation>Sitzungen, die neueste zuerst</translation>
    </message>
    <message>
        <source>Begun</source>
        <translation>Begonnen</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Strings</source>
        <translation>Saiten</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Stand</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Instrument</translation>
    </message>
    <message>
        <source>Temperament</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>a′</source>
        <translation>a′</translation>
    </message>
    <message>
        <source>Sound from</source>
        <translation>Klang von</translation>
    </message>
    <message>
        <source>Readings of the session</source>
        <translation>Messungen der Sitzung</translation>
    </message>
    <message>
        <source>Choir</source>
        <translation>Chor</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>Cents</source>
        <translation>Cent</translation>
    </message>
    <message>
        <source>±</source>
        <translation>±</translation>
    </message>
    <message>
        <source>Pitch</source>
        <translation>Tonhöhe</translation>
    </message>
    <message>
        <source>Plucks</source>
        <translation>Anrisse</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>Logbook</source>
        <translation>Logbuch</translation>
    </message>
    <message>
        <source>&amp;Readings</source>
        <translation>&amp;Messungen</translation>
    </message>
    <message>
        <source>&amp;Diary</source>
        <translation>&amp;Tagebuch</translation>
    </message>
    <message>
        <source>What strings &amp;tend to do</source>
        <translation>Wozu Saiten &amp;neigen</translation>
    </message>
    <message>
        <source>&amp;Check every row</source>
        <translation>Jede Zeile &amp;prüfen</translation>
    </message>
    <message>
        <source>&amp;Export as JSON…</source>
        <translation>Als &amp;JSON ausgeben…</translation>
    </message>
    <message>
        <source>Export as C&amp;SV tables…</source>
        <translation>Als &amp;CSV-Tabellen ausgeben…</translation>
    </message>
    <message>
        <source>&amp;Import a JSON export…</source>
        <translation>JSON-Ausgabe &amp;einlesen…</translation>
    </message>
    <message>
        <source>Import CSV &amp;tables…</source>
        <translation>CSV-&amp;Tabellen einlesen…</translation>
    </message>
    <message>
        <source>&amp;Back up…</source>
        <translation>&amp;Sichern…</translation>
    </message>
    <message>
        <source>&amp;Restore a backup…</source>
        <translation>Sicherung &amp;zurückholen…</translation>
    </message>
    <message>
        <source>Remarks, air, new strings and clocks</source>
        <translation>Bemerkungen, Luft, neue Saiten und Uhren</translation>
    </message>
    <message>
        <source>When</source>
        <translation>Wann</translation>
    </message>
    <message>
        <source>String</source>
        <translation>Saite</translation>
    </message>
    <message>
        <source>Text</source>
        <translation>Text</translation>
    </message>
    <message>
        <source>How fast each string drifts</source>
        <translation>Wie schnell jede Saite wandert</translation>
    </message>
    <message>
        <source>Cents a week</source>
        <translation>Cent je Woche</translation>
    </message>
    <message>
        <source>Looks</source>
        <translation>Prüfungen</translation>
    </message>
    <message>
        <source>What it does</source>
        <translation>Was sie tut</translation>
    </message>
    <message>
        <source>Reading…</source>
        <translation>Wird gelesen…</translation>
    </message>
    <message>
        <source>No session is opened</source>
        <translation>Keine Sitzung ist geöffnet</translation>
    </message>
    <message>
        <source>Folder for the tables</source>
        <translation>Ordner für die Tabellen</translation>
    </message>
    <message>
        <source>Export the logbook</source>
        <translation>Das Logbuch ausgeben</translation>
    </message>
    <message>
        <source>JSON (*.json)</source>
        <translation>JSON (*.json)</translation>
    </message>
    <message>
        <source>Folder of exported tables</source>
        <translation>Ordner mit ausgegebenen Tabellen</translation>
    </message>
    <message>
        <source>Import an export</source>
        <translation>Eine Ausgabe einlesen</translation>
    </message>
    <message>
        <source>JSON (*.json);;All files (*)</source>
        <translation>JSON (*.json);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Back up the logbook</source>
        <translation>Das Logbuch sichern</translation>
    </message>
    <message>
        <source>Logbook (*.sqlite)</source>
        <translation>Logbuch (*.sqlite)</translation>
    </message>
    <message>
        <source>Restore a backup</source>
        <translation>Eine Sicherung zurückholen</translation>
    </message>
    <message>
        <source>Logbook (*.sqlite);;All files (*)</source>
        <translation>Logbuch (*.sqlite);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Put this backup in the logbook&apos;s place? What is there now is kept beside it under another name; the session at hand ends.</source>
        <translation>Diese Sicherung an die Stelle des Logbuchs setzen? Was jetzt dort ist, bleibt unter anderem Namen daneben erhalten; die laufende Sitzung endet.</translation>
    </message>
    <message>
        <source>&amp;Restore</source>
        <translation>&amp;Zurückholen</translation>
    </message>
    <message>
        <source>Print a report; check, export, import, back up or restore the logbook&apos;s file</source>
        <translation>Einen Bericht drucken; die Datei des Logbuchs prüfen, exportieren, importieren, sichern oder zurückholen</translation>
    </message>
    <message>
        <source>&amp;Print the session&apos;s report…</source>
        <translation>Bericht der Sitzung &amp;drucken…</translation>
    </message>
    <message>
        <source>Open a session of the list first: its report is printed.</source>
        <translation>Erst eine Sitzung der Liste öffnen: ihr Bericht wird gedruckt.</translation>
    </message>
    <message>
        <source>%1: no session yet. What is tuned and rechecked is kept here as it goes; where an ear stands is told at Practise.</source>
        <translation>%1: noch keine Sitzung. Was gestimmt und nachgeprüft wird, steht dann hier; wie es um das Ohr steht, sagt „Üben“.</translation>
    </message>
</context>
<context>
    <name>quillbench::LookPanel</name>
    <message>
        <source>%1 of %2 strings, on average %3 cents, at most %4 up; %5 min</source>
        <translation>%1 von %2 Saiten, im Mittel %3 Cent, höchstens %4 hinauf; %5 min</translation>
    </message>
    <message>
        <source>First look</source>
        <translation>Erster Blick</translation>
    </message>
    <message>
        <source>Stay at %1</source>
        <translation>Bei %1 bleiben</translation>
    </message>
    <message>
        <source>%1 cents: %2</source>
        <translation>%1 Cent: %2</translation>
    </message>
    <message>
        <source>Tune at %1</source>
        <translation>Auf %1 stimmen</translation>
    </message>
    <message>
        <source>Strings heard: %1. Whoever plays on stays at the standard.</source>
        <translation>Gehörte Saiten: %1. Wer weiterspielt, bleibt beim Stimmton.</translation>
    </message>
    <message>
        <source>Strings heard: %1. No other pitch leaves more strings alone.</source>
        <translation>Gehörte Saiten: %1. Keine andere Tonhöhe lässt mehr Saiten in Ruhe.</translation>
    </message>
    <message>
        <source>As heard, %1</source>
        <translation>Wie gehört, %1</translation>
    </message>
    <message>
        <source>%1 %2 cents: %3</source>
        <translation>%1 %2 Cent: %3</translation>
    </message>
    <message>
        <source>%1 Before an old instrument is raised ask its maker or a conservator.</source>
        <translation>%1 Bevor ein altes Instrument höher gestimmt wird, Instrumentenbauer oder Restaurierung fragen.</translation>
    </message>
</context>
<context>
    <name>quillbench::MainWindow</name>
    <message>
        <source>&amp;Session</source>
        <translation>&amp;Sitzung</translation>
    </message>
    <message>
        <source>&amp;Keep the string as it is</source>
        <translation>Saite so &amp;belassen</translation>
    </message>
    <message>
        <source>S&amp;kip the string</source>
        <translation>Saite über&amp;gehen</translation>
    </message>
    <message>
        <source>&amp;Next string</source>
        <translation>&amp;Nächste Saite</translation>
    </message>
    <message>
        <source>&amp;Previous string</source>
        <translation>&amp;Vorige Saite</translation>
    </message>
    <message>
        <source>&amp;Undo the last decision</source>
        <translation>Letzte Entscheidung &amp;zurücknehmen</translation>
    </message>
    <message>
        <source>P&amp;ause</source>
        <translation>&amp;Pause</translation>
    </message>
    <message>
        <source>By &amp;ear, numbers covered</source>
        <translation>Nach Ge&amp;hör, Zahlen verdeckt</translation>
    </message>
    <message>
        <source>P&amp;ress test: is the hammer on its pin?</source>
        <translation>&amp;Druckprobe: sitzt der Stimmhammer richtig?</translation>
    </message>
    <message>
        <source>Se&amp;cond pass of what moved far</source>
        <translation>Z&amp;weiter Gang durch das weit Bewegte</translation>
    </message>
    <message>
        <source>Re&amp;mark on the string…</source>
        <translation>Be&amp;merkung zur Saite…</translation>
    </message>
    <message>
        <source>Pa&amp;rts of a whole session</source>
        <translation>&amp;Teile einer ganzen Sitzung</translation>
    </message>
    <message>
        <source>&amp;Begin again</source>
        <translation>Von v&amp;orn</translation>
    </message>
    <message>
        <source>&amp;Run-through: every key once on each register</source>
        <translation>&amp;Durchspielen: jede Taste einmal auf jedem Register</translation>
    </message>
    <message>
        <source>&amp;Sentinel notes: does the ground move?</source>
        <translation>&amp;Kontrolltöne: bewegt sich der Grund?</translation>
    </message>
    <message>
        <source>&amp;First look: where does each choir stand?</source>
        <translation>&amp;Erster Blick: wo steht jeder Chor?</translation>
    </message>
    <message>
        <source>Re&amp;check at the end</source>
        <translation>&amp;Nachprüfung am Ende</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>About %1:</source>
        <translation>Zu %1:</translation>
    </message>
    <message>
        <source>false beat</source>
        <translation>falsche Schwebung</translation>
    </message>
    <message>
        <source>pin loose</source>
        <translation>Wirbel locker</translation>
    </message>
    <message>
        <source>replaced</source>
        <translation>ersetzt</translation>
    </message>
    <message>
        <source>buzzes</source>
        <translation>schnarrt</translation>
    </message>
    <message>
        <source>&amp;Virtual instrument</source>
        <translation>&amp;Virtuelles Instrument</translation>
    </message>
    <message>
        <source>Pin a hair &amp;up</source>
        <translation>Wirbel eine Spur &amp;höher</translation>
    </message>
    <message>
        <source>Pin a hair &amp;down</source>
        <translation>Wirbel eine Spur &amp;tiefer</translation>
    </message>
    <message>
        <source>Pin well u&amp;p</source>
        <translation>Wirbel deutlich h&amp;öher</translation>
    </message>
    <message>
        <source>Pin well d&amp;own</source>
        <translation>Wirbel deutlich t&amp;iefer</translation>
    </message>
    <message>
        <source>&amp;Other string of the key</source>
        <translation>&amp;Andere Saite der Taste</translation>
    </message>
    <message>
        <source>&amp;Pluck the key at hand</source>
        <translation>Die Taste anr&amp;eißen</translation>
    </message>
    <message>
        <source>S&amp;ound</source>
        <translation>K&amp;lang</translation>
    </message>
    <message>
        <source>&amp;Keep a recording</source>
        <translation>&amp;Aufnahme festhalten</translation>
    </message>
    <message>
        <source>&amp;Listen to a recording…</source>
        <translation>Eine Aufnahme an&amp;hören…</translation>
    </message>
    <message>
        <source>&amp;Say what to do</source>
        <translation>&amp;Sagen, was zu tun ist</translation>
    </message>
    <message>
        <source>&amp;Calibrate the clock…</source>
        <translation>&amp;Uhr kalibrieren…</translation>
    </message>
    <message>
        <source>&amp;Preferences…</source>
        <translation>&amp;Einstellungen…</translation>
    </message>
    <message>
        <source>&amp;Window</source>
        <translation>&amp;Fenster</translation>
    </message>
    <message>
        <source>&amp;As the system</source>
        <translation>&amp;Wie das System</translation>
    </message>
    <message>
        <source>&amp;Paper</source>
        <translation>&amp;Papier</translation>
    </message>
    <message>
        <source>&amp;Night</source>
        <translation>&amp;Nacht</translation>
    </message>
    <message>
        <source>&amp;Full screen</source>
        <translation>&amp;Vollbild</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>&amp;Beenden</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>&amp;Keys</source>
        <translation>&amp;Tasten</translation>
    </message>
    <message>
        <source>&amp;High contrast</source>
        <translation>Hoher &amp;Kontrast</translation>
    </message>
    <message>
        <source>&amp;Less motion</source>
        <translation>&amp;Weniger Bewegung</translation>
    </message>
    <message>
        <source>&amp;This place</source>
        <translation>&amp;Dieser Ort</translation>
    </message>
    <message>
        <source>&amp;Close help</source>
        <translation>Hilfe s&amp;chließen</translation>
    </message>
    <message>
        <source>&amp;Begin: the three questions…</source>
        <translation>Dr&amp;ei Fragen zum Anfang…</translation>
    </message>
    <message>
        <source>&amp;More of a whole session…</source>
        <translation>&amp;Mehr zum ganzen Instrument…</translation>
    </message>
    <message>
        <source>Pitch &amp;of another instrument…</source>
        <translation>Stimmton eines anderen &amp;Instruments…</translation>
    </message>
</context>
<context>
    <name>quillbench::NewStringPanel</name>
    <message>
        <source>Fit this wire</source>
        <translation>Diesen Draht nehmen</translation>
    </message>
    <message>
        <source>Wires that fit, the best first</source>
        <translation>Passende Drähte, der beste zuerst</translation>
    </message>
    <message>
        <source>Key of the string</source>
        <translation>Taste der Saite</translation>
    </message>
    <message>
        <source>Ke&amp;y</source>
        <translation>T&amp;aste</translation>
    </message>
    <message>
        <source>Speaking length as measured</source>
        <translation>Klingende Länge, wie gemessen</translation>
    </message>
    <message>
        <source> mm</source>
        <translation> mm</translation>
    </message>
    <message>
        <source>Measured length</source>
        <translation>Gemessene Länge</translation>
    </message>
    <message>
        <source>The marked wire goes into the string list; this can be undone</source>
        <translation>Der markierte Draht kommt in die Saitenliste; das lässt sich zurücknehmen</translation>
    </message>
    <message>
        <source>A margin is a range, not a promise. Bring a new string up in small steps, eyes away from it and its neighbours: it breaks most easily at loop and pins. On a historical instrument ask a maker or conservator which wire may go on.</source>
        <translation>Ein Abstand zum Reißen ist ein Bereich, keine Zusage. Eine neue Saite in kleinen Schritten hochziehen, Augen weg von ihr und ihren Nachbarn: am leichtesten reißt sie an Öse und Stiften. Bei einem historischen Instrument Instrumentenbauer oder Restaurierung fragen, welcher Draht aufgezogen werden darf.</translation>
    </message>
    <message>
        <source>The string list has %1 mm of %2 mm %3: %4 N, breaks %5 semitones above.</source>
        <translation>In der Saitenliste: %1 mm, %2 mm dick, %3: %4 N, reißt %5 Halbtöne darüber.</translation>
    </message>
    <message>
        <source>%1 By the neighbours it should pull %2 N at %3.</source>
        <translation>%1 Nach den Nachbarn sollte sie bei %3 mit %2 N ziehen.</translation>
    </message>
    <message>
        <source>%1 mm %2 is likely to sound: %3.</source>
        <translation>%1 mm %2 klingt wohl so: %3.</translation>
    </message>
    <message>
        <source>This string was put on %1 ago.</source>
        <translation>Diese Saite wurde vor %1 aufgezogen.</translation>
    </message>
    <message>
        <source>Once it is on and tuned: %1 %2</source>
        <translation>Wenn sie aufgezogen und gestimmt ist: %1 %2</translation>
    </message>
    <message>
        <source>%1: in the string list. Once it is on, write it into the logbook (Diary, new string): how it settles is learned from there.</source>
        <translation>%1: in der Saitenliste. Sobald sie aufgezogen ist, ins Logbuch schreiben (Tagebuch, neue Saite): daraus wird gelernt, wie sie sich setzt.</translation>
    </message>
</context>
<context>
    <name>quillbench::Notice</name>
    <message>
        <source>Click to put it away</source>
        <translation>Klicken, um es wegzulegen</translation>
    </message>
</context>
<context>
    <name>quillbench::OptionsDialog</name>
    <message>
        <source> cents</source>
        <translation> Cent</translation>
    </message>
    <message>
        <source>&amp;Felt between the strings that are off</source>
        <translation>&amp;Filz zwischen die abgestellten Saiten</translation>
    </message>
    <message>
        <source>More of a whole session</source>
        <translation>Mehr zum ganzen Instrument</translation>
    </message>
    <message>
        <source>As &amp;usual</source>
        <translation>Wie &amp;üblich</translation>
    </message>
    <message>
        <source>Leave the %1 alone</source>
        <translation>Auslassen: %1</translation>
    </message>
    <message>
        <source>Choirs</source>
        <translation>Chöre</translation>
    </message>
    <message>
        <source>The one chosen under Choir, here the %1, is tuned first.</source>
        <translation>Der unter Chor gewählte wird zuerst gestimmt, hier: %1.</translation>
    </message>
    <message>
        <source>down, then up</source>
        <translation>abwärts, dann aufwärts</translation>
    </message>
    <message>
        <source>up, then down</source>
        <translation>aufwärts, dann abwärts</translation>
    </message>
    <message>
        <source>by turns, a key below and a key above</source>
        <translation>abwechselnd eine Taste unten, eine oben</translation>
    </message>
    <message>
        <source>From the bearings &amp;outward</source>
        <translation>Von der Temperatur nach &amp;außen</translation>
    </message>
    <message>
        <source>a little above, then down into it</source>
        <translation>etwas darüber, dann von oben hinein</translation>
    </message>
    <message>
        <source>from below, slackened first where it is sharp</source>
        <translation>von unten; zu Hohes zuerst entspannt</translation>
    </message>
    <message>
        <source>&amp;To the target</source>
        <translation>&amp;Zum Ziel</translation>
    </message>
    <message>
        <source>Settled in the &amp;bearings within</source>
        <translation>&amp;Temperatur sitzt innerhalb</translation>
    </message>
    <message>
        <source>at both &amp;ends of the compass</source>
        <translation>an beiden &amp;Enden des Umfangs</translation>
    </message>
    <message>
        <source>another choir &amp;against the first</source>
        <translation>&amp;weiterer Chor gegen den ersten</translation>
    </message>
    <message>
        <source>A silenced string rings along and moves what is read by up to two cents.</source>
        <translation>Eine abgestellte Saite klingt mit und verschiebt den Wert um bis zu zwei Cent.</translation>
    </message>
    <message>
        <source>A session in which something was done keeps its plan; what is chosen here then counts from the next one on. An octave alone takes the way to the target, the tolerance of the bearings and felt.</source>
        <translation>Eine Sitzung, in der schon etwas getan wurde, behält ihren Plan; was hier gewählt wird, gilt dann ab der nächsten. Eine Oktave allein nimmt davon den Weg zum Ziel, die Toleranz der Temperatur und den Filz.</translation>
    </message>
    <message>
        <source>Never less than in the bearings</source>
        <translation>Nie weniger als in der Temperaturlegung</translation>
    </message>
</context>
<context>
    <name>quillbench::PinView</name>
    <message>
        <source>Pin of the virtual string</source>
        <translation>Wirbel der virtuellen Saite</translation>
    </message>
    <message>
        <source>Drag, wheel or ↑ ↓ turn the pin finely; with Shift coarsely</source>
        <translation>Ziehen, Mausrad oder ↑ ↓ drehen den Wirbel fein; mit Umschalt grob</translation>
    </message>
    <message>
        <source>The pin of %1 was turned by %2; one degree is %3 cents</source>
        <translation>Der Wirbel von %1 wurde um %2 gedreht; ein Grad sind %3 Cent</translation>
    </message>
    <message>
        <source>%1; 1° is %2 ct</source>
        <translation>%1; 1° = %2 ct</translation>
    </message>
</context>
<context>
    <name>quillbench::PlaceBar</name>
    <message>
        <source>Instrument</source>
        <translation>Instrument</translation>
    </message>
    <message>
        <source>Choirs, registers and strings</source>
        <translation>Chöre, Register und Saiten</translation>
    </message>
    <message>
        <source>Temperament</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Choose, compare and make temperaments</source>
        <translation>Temperaturen wählen, vergleichen und entwerfen</translation>
    </message>
    <message>
        <source>Tune</source>
        <translation>Stimmen</translation>
    </message>
    <message>
        <source>Tune an octave or the whole instrument</source>
        <translation>Eine Oktave oder das ganze Instrument stimmen</translation>
    </message>
    <message>
        <source>Recheck</source>
        <translation>Nachprüfen</translation>
    </message>
    <message>
        <source>Hear what moved since it was tuned</source>
        <translation>Hören, was sich seit dem Stimmen bewegt hat</translation>
    </message>
    <message>
        <source>Action</source>
        <translation>Mechanik</translation>
    </message>
    <message>
        <source>Plucks, plectra, dampers and faults</source>
        <translation>Anrisse, Kiele, Dämpfer und Fehler</translation>
    </message>
    <message>
        <source>Practise</source>
        <translation>Üben</translation>
    </message>
    <message>
        <source>Learn to hear beats</source>
        <translation>Schwebungen hören lernen</translation>
    </message>
    <message>
        <source>Logbook</source>
        <translation>Logbuch</translation>
    </message>
    <message>
        <source>What was done</source>
        <translation>Was getan wurde</translation>
    </message>
    <message>
        <source>Places</source>
        <translation>Orte</translation>
    </message>
    <message>
        <source>%1 (Ctrl+%2)</source>
        <translation>%1 (Strg+%2)</translation>
    </message>
</context>
<context>
    <name>quillbench::PractiseActions</name>
    <message>
        <source>Play (Return)</source>
        <translation>Spielen (Eingabetaste)</translation>
    </message>
    <message>
        <source>Play again (F5)</source>
        <translation>Noch einmal (F5)</translation>
    </message>
    <message>
        <source>Partial alone (F6)</source>
        <translation>Teilton allein (F6)</translation>
    </message>
    <message>
        <source>Breath slowly (F7)</source>
        <translation>Atem langsam (F7)</translation>
    </message>
    <message>
        <source>Play again</source>
        <translation>Noch einmal</translation>
    </message>
    <message>
        <source>Partial alone</source>
        <translation>Teilton allein</translation>
    </message>
    <message>
        <source>Breath slowly</source>
        <translation>Atem langsam</translation>
    </message>
    <message>
        <source>A &amp;tap is</source>
        <translation>Ein Ti&amp;ppen ist</translation>
    </message>
    <message>
        <source>Beats for each tap</source>
        <translation>Schwebungen je Tippen</translation>
    </message>
    <message>
        <source>1 beat</source>
        <translation>1 Schwebung</translation>
    </message>
    <message>
        <source>%1 beats</source>
        <translation>%1 Schwebungen</translation>
    </message>
    <message>
        <source>Faster than four a second: tap every second or fourth beat. Keys 1 to 4</source>
        <translation>Schneller als vier in der Sekunde: bei jeder zweiten oder vierten Schwebung tippen. Tasten 1 bis 4</translation>
    </message>
    <message>
        <source>Wide (W)</source>
        <translation>Weit (W)</translation>
    </message>
    <message>
        <source>Narrow (N)</source>
        <translation>Eng (N)</translation>
    </message>
    <message>
        <source>First (1)</source>
        <translation>Erster (1)</translation>
    </message>
    <message>
        <source>Second (2)</source>
        <translation>Zweiter (2)</translation>
    </message>
    <message>
        <source>Hand off the hammer (L)</source>
        <translation>Stimmhammer loslassen (L)</translation>
    </message>
    <message>
        <source>Loudn&amp;ess</source>
        <translation>La&amp;utstärke</translation>
    </message>
    <message>
        <source>Loudness</source>
        <translation>Lautstärke</translation>
    </message>
    <message>
        <source>Every sitting starts quiet; the loudest is limited</source>
        <translation>Jede Sitzung beginnt leise; nach oben ist sie begrenzt</translation>
    </message>
    <message>
        <source>Again (F5)</source>
        <translation>Neu (F5)</translation>
    </message>
    <message>
        <source>Alone (F6)</source>
        <translation>Allein (F6)</translation>
    </message>
    <message>
        <source>Slow (F7)</source>
        <translation>Langsam (F7)</translation>
    </message>
    <message>
        <source>Hand off (L)</source>
        <translation>Loslassen (L)</translation>
    </message>
    <message>
        <source>Next step</source>
        <translation>Nächster Schritt</translation>
    </message>
    <message>
        <source>Next step (Return)</source>
        <translation>Nächster Schritt (Eingabetaste)</translation>
    </message>
    <message>
        <source>Begin</source>
        <translation>Beginnen</translation>
    </message>
    <message>
        <source>Play</source>
        <translation>Spielen</translation>
    </message>
    <message>
        <source>Next</source>
        <translation>Weiter</translation>
    </message>
    <message>
        <source>Show</source>
        <translation>Zeigen</translation>
    </message>
    <message>
        <source>%1 (Return)</source>
        <translation>%1 (Eingabetaste)</translation>
    </message>
</context>
<context>
    <name>quillbench::PractiseChoices</name>
    <message>
        <source>&amp;Interval</source>
        <translation>&amp;Intervall</translation>
    </message>
    <message>
        <source>&amp;Register</source>
        <translation>La&amp;ge</translation>
    </message>
    <message>
        <source>&amp;Count</source>
        <translation>&amp;Zählen</translation>
    </message>
    <message>
        <source>Which wa&amp;y</source>
        <translation>Weit/&amp;eng</translation>
    </message>
    <message>
        <source>&amp;Bring together</source>
        <translation>Einsti&amp;mmen</translation>
    </message>
    <message>
        <source>&amp;Leave a little</source>
        <translation>&amp;Temperieren</translation>
    </message>
    <message>
        <source>Co&amp;mpare</source>
        <translation>Ve&amp;rgleichen</translation>
    </message>
    <message>
        <source>Tap along with a beat</source>
        <translation>Mit einer Schwebung mittippen</translation>
    </message>
    <message>
        <source>Tell wide from narrow</source>
        <translation>Weit von eng unterscheiden</translation>
    </message>
    <message>
        <source>Turn the pin until the beat is still</source>
        <translation>Den Wirbel drehen, bis die Schwebung ruht</translation>
    </message>
    <message>
        <source>Turn the pin until it beats as the temperament wants</source>
        <translation>Den Wirbel drehen, bis es schwebt, wie die Temperatur es will</translation>
    </message>
    <message>
        <source>Tell which of two fast beats is faster</source>
        <translation>Sagen, welche von zwei schnellen Schwebungen schneller ist</translation>
    </message>
    <message>
        <source>Exercise</source>
        <translation>Aufgabe</translation>
    </message>
    <message>
        <source>On my instrument (F8)</source>
        <translation>Auf meinem Instrument (F8)</translation>
    </message>
    <message>
        <source>You play and judge; the program listens, then uncovers what it measured</source>
        <translation>Selbst spielen und urteilen; das Programm hört zu und deckt dann auf, was es gemessen hat</translation>
    </message>
    <message>
        <source>Whole plan (F9)</source>
        <translation>Ganzer Plan (F9)</translation>
    </message>
    <message>
        <source>Lay the bearings of the session&apos;s temperament, all steps by ear</source>
        <translation>Die Temperatur der Sitzung legen, alle Schritte nach Gehör</translation>
    </message>
    <message>
        <source>any</source>
        <translation>beliebig</translation>
    </message>
    <message>
        <source>Own (F8)</source>
        <translation>Eigenes (F8)</translation>
    </message>
    <message>
        <source>My instrument (F8)</source>
        <translation>Eigenes Instrument (F8)</translation>
    </message>
    <message>
        <source>Plan (F9)</source>
        <translation>Plan (F9)</translation>
    </message>
</context>
<context>
    <name>quillbench::PractisePage</name>
    <message>
        <source>Practise</source>
        <translation>Üben</translation>
    </message>
    <message>
        <source>With headphones: put them on after the first sound, and turn up only as far as you need. Beats are heard best when it is quiet. Rest your ears every quarter of an hour.</source>
        <translation>Mit Kopfhörern: erst nach dem ersten Klang aufsetzen und nur so laut stellen wie nötig. Schwebungen hört man am besten, wenn es leise ist. Den Ohren alle Viertelstunde Ruhe gönnen.</translation>
    </message>
    <message>
        <source>&amp;Understood</source>
        <translation>Verstan&amp;den</translation>
    </message>
</context>
<context>
    <name>quillbench::PractisePlace</name>
    <message>
        <source>No microphone: choose one at Tune, Sound from</source>
        <translation>Kein Mikrofon: unter „Stimmen“ bei „Klang von“ eines wählen</translation>
    </message>
    <message>
        <source>Loudspeaker</source>
        <translation>Lautsprecher</translation>
    </message>
</context>
<context>
    <name>quillbench::PreferencesDialog</name>
    <message>
        <source> ppm</source>
        <translation> ppm</translation>
    </message>
    <message>
        <source>Preferences</source>
        <translation>Einstellungen</translation>
    </message>
    <message>
        <source>default microphone</source>
        <translation>Standardmikrofon</translation>
    </message>
    <message>
        <source>%1 (not there now)</source>
        <translation>%1 (jetzt nicht da)</translation>
    </message>
    <message>
        <source>&amp;Language</source>
        <translation>&amp;Sprache</translation>
    </message>
    <message>
        <source>&amp;Names of notes</source>
        <translation>&amp;Namen der Töne</translation>
    </message>
    <message>
        <source>&amp;Octaves</source>
        <translation>&amp;Oktaven</translation>
    </message>
    <message>
        <source>Language and names of notes change when Quillbench is started the next time.</source>
        <translation>Sprache und Tonnamen wechseln beim nächsten Start von Quillbench.</translation>
    </message>
    <message>
        <source>&amp;Microphone</source>
        <translation>&amp;Mikrofon</translation>
    </message>
    <message>
        <source>&amp;Channel</source>
        <translation>&amp;Kanal</translation>
    </message>
    <message>
        <source>&amp;Samples a second</source>
        <translation>&amp;Abtastwerte je Sekunde</translation>
    </message>
    <message>
        <source>Its clock runs &amp;fast by</source>
        <translation>Seine &amp;Uhr geht vor um</translation>
    </message>
    <message>
        <source>known to ±</source>
        <translation>bekannt auf ±</translation>
    </message>
    <message>
        <source>50 ppm are 0.09 cent. The value belongs to the device and is kept by its name; Sound ▸ Calibrate the clock… measures it. Leave 0 ± 50 where nothing is known.</source>
        <translation>50 ppm sind 0,09 Cent. Der Wert gehört zum Gerät und wird unter dessen Namen behalten; Klang ▸ Uhr kalibrieren… misst ihn. 0 ± 50 stehen lassen, wo nichts bekannt ist.</translation>
    </message>
    <message>
        <source>as the system</source>
        <translation>wie das System</translation>
    </message>
    <message>
        <source>as usual in the language</source>
        <translation>wie in der Sprache üblich</translation>
    </message>
</context>
<context>
    <name>quillbench::ProgressView</name>
    <message>
        <source>Where your ear stands</source>
        <translation>Wo das Ohr steht</translation>
    </message>
</context>
<context>
    <name>quillbench::RecheckPage</name>
    <message>
        <source>&amp;Begin again</source>
        <translation>Von v&amp;orn</translation>
    </message>
    <message>
        <source>&amp;Play it for me</source>
        <translation>Vors&amp;pielen</translation>
    </message>
    <message>
        <source>Three wee&amp;ks on</source>
        <translation>3 &amp;Wochen</translation>
    </message>
    <message>
        <source>Strings worth the hammer, in the order of what they gain</source>
        <translation>Saiten, die das Nachstimmen lohnen, nach dem Gewinn geordnet</translation>
    </message>
    <message>
        <source>String</source>
        <translation>Saite</translation>
    </message>
    <message>
        <source>Turn by</source>
        <translation>Drehen um</translation>
    </message>
    <message>
        <source>Stands at</source>
        <translation>Steht bei</translation>
    </message>
    <message>
        <source>Recheck</source>
        <translation>Nachprüfen</translation>
    </message>
    <message>
        <source>Choir</source>
        <translation>Chor</translation>
    </message>
    <message>
        <source>The choir that is played upwards</source>
        <translation>Der Chor, der aufwärts gespielt wird</translation>
    </message>
    <message>
        <source>An interval may be out by</source>
        <translation>Ein Intervall darf verstimmt sein um</translation>
    </message>
    <message>
        <source> cents</source>
        <translation> Cent</translation>
    </message>
    <message>
        <source>Forgets what was heard and begins a new recheck</source>
        <translation>Vergisst das Gehörte und beginnt eine neue Nachprüfung</translation>
    </message>
    <message>
        <source>Plays the choir of the virtual instrument upwards</source>
        <translation>Spielt den Chor des virtuellen Instruments aufwärts</translation>
    </message>
    <message>
        <source>Lets the strings of the virtual instrument drift</source>
        <translation>Lässt die Saiten des virtuellen Instruments wandern</translation>
    </message>
    <message>
        <source>&amp;Choir</source>
        <translation>&amp;Chor</translation>
    </message>
    <message>
        <source>An &amp;interval may be out by</source>
        <translation>&amp;Intervall bis</translation>
    </message>
    <message>
        <source>Sto&amp;p</source>
        <translation>&amp;Anhalten</translation>
    </message>
    <message>
        <source>Minutes there are for the hammer</source>
        <translation>Minuten, die für den Hammer da sind</translation>
    </message>
    <message>
        <source>The list then names the strings that gain most in that time, at your own speed</source>
        <translation>Die Liste nennt dann die Saiten, die in dieser Zeit am meisten bringen, im eigenen Tempo</translation>
    </message>
    <message>
        <source>no limit</source>
        <translation>unbegrenzt</translation>
    </message>
    <message>
        <source> minutes</source>
        <translation> Minuten</translation>
    </message>
    <message>
        <source>&amp;Time</source>
        <translation>&amp;Zeit</translation>
    </message>
</context>
<context>
    <name>quillbench::RecognisedPanel</name>
    <message>
        <source>Nearest temperaments</source>
        <translation>Nächste Temperaturen</translation>
    </message>
    <message>
        <source>&amp;Look at the nearest</source>
        <translation>Die nächs&amp;te ansehen</translation>
    </message>
    <message>
        <source>Fifths as heard</source>
        <translation>Quinten, wie gehört</translation>
    </message>
    <message>
        <source>Play the twelve notes of an octave at Tune, a string at a time on the choir chosen there; what they are tuned to is told here.
%1</source>
        <translation>Unter „Stimmen“ die zwölf Töne einer Oktave spielen, eine Saite nach der anderen auf dem dort gewählten Chor; wie sie gestimmt sind, steht dann hier.
%1</translation>
    </message>
</context>
<context>
    <name>quillbench::RegisterBar</name>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Registers:</source>
        <translation>Register:</translation>
    </message>
    <message>
        <source>%1 on or off (%2)</source>
        <translation>%1 ein oder aus (%2)</translation>
    </message>
    <message>
        <source>coupler</source>
        <translation>Koppel</translation>
    </message>
</context>
<context>
    <name>quillbench::RegistersPanel</name>
    <message>
        <source>Return or typing changes a cell. At: where it plucks, per cent of the speaking length from the nut at c″. Travel: how far the key has gone when it plucks; it gives the order of the plucks.</source>
        <translation>Eingabetaste oder Tippen ändert eine Zelle. Bei: wo gezupft wird, Prozent der klingenden Länge vom Stimmstocksteg bei c″. Tastengang: wie weit die Taste gesunken ist, wenn gezupft wird; er bestimmt die Reihenfolge.</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Add</source>
        <translation>Hinzu</translation>
    </message>
    <message>
        <source>Add a register to the choir of the marked one</source>
        <translation>Ein Register für den Chor des markierten hinzufügen</translation>
    </message>
    <message>
        <source>Take away</source>
        <translation>Weg</translation>
    </message>
    <message>
        <source>Take the marked register away</source>
        <translation>Das markierte Register wegnehmen</translation>
    </message>
    <message>
        <source>Registers (rows of jacks)</source>
        <translation>Register (Springerreihen)</translation>
    </message>
    <message>
        <source>Choirs</source>
        <translation>Chöre</translation>
    </message>
    <message>
        <source>Add a choir</source>
        <translation>Einen Chor hinzufügen</translation>
    </message>
    <message>
        <source>&amp;8′</source>
        <translation>&amp;8′</translation>
    </message>
    <message>
        <source>&amp;4′</source>
        <translation>&amp;4′</translation>
    </message>
    <message>
        <source>&amp;16′</source>
        <translation>&amp;16′</translation>
    </message>
    <message>
        <source>Take the marked choir and its registers away</source>
        <translation>Den markierten Chor und seine Register wegnehmen</translation>
    </message>
    <message>
        <source>Choirs (sets of strings)</source>
        <translation>Chöre (Saitenbezüge)</translation>
    </message>
</context>
<context>
    <name>quillbench::Sentence</name>
    <message>
        <source>What to do now</source>
        <translation>Was jetzt zu tun ist</translation>
    </message>
</context>
<context>
    <name>quillbench::SessionJournal</name>
    <message>
        <source>The logbook was damaged (%1). %2 readings were saved; the damaged file is %3. A backup may hold more.</source>
        <translation>Das Logbuch war beschädigt (%1). %2 Messungen wurden gerettet; die beschädigte Datei ist %3. Eine Sicherung enthält vielleicht mehr.</translation>
    </message>
    <message>
        <source>The session of %1 cannot be gone on with: %2</source>
        <translation>Die Sitzung vom %1 kann nicht fortgesetzt werden: %2</translation>
    </message>
    <message>
        <source>events of it are missing</source>
        <translation>Ereignisse daraus fehlen</translation>
    </message>
    <message>
        <source>Going on with the session of %1: %2 of %3 strings done. %4 begins it again.</source>
        <translation>Die Sitzung vom %1 geht weiter: %2 von %3 Saiten fertig. %4 beginnt von vorn.</translation>
    </message>
    <message>
        <source>The logbook is written again; nothing was lost.</source>
        <translation>Das Logbuch wird wieder geschrieben; nichts ging verloren.</translation>
    </message>
    <message>
        <source>Not kept yet: %1</source>
        <translation>Noch nicht festgehalten: %1</translation>
    </message>
</context>
<context>
    <name>quillbench::SoundPicker</name>
    <message>
        <source>default microphone</source>
        <translation>Standardmikrofon</translation>
    </message>
    <message>
        <source>%1 (not there now)</source>
        <translation>%1 (jetzt nicht da)</translation>
    </message>
    <message>
        <source>Virtual instrument</source>
        <translation>Virtuelles Instrument</translation>
    </message>
    <message>
        <source>Sound (*.wav *.flac *.aiff *.aif *.ogg);;All files (*)</source>
        <translation>Klang (*.wav *.flac *.aiff *.aif *.ogg);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>a recording…</source>
        <translation>eine Aufnahme…</translation>
    </message>
</context>
<context>
    <name>quillbench::StringsPanel</name>
    <message>
        <source>Strings</source>
        <translation>Saiten</translation>
    </message>
    <message>
        <source>Lengths &amp;between</source>
        <translation>Längen da&amp;zwischen</translation>
    </message>
    <message>
        <source>The lengths between the first and the last marked string, straight in log length over semitones: measure a few and fill the rest</source>
        <translation>Die Längen zwischen der ersten und der letzten markierten Saite, gerade im Logarithmus der Länge über die Halbtöne: wenige messen, den Rest füllen</translation>
    </message>
    <message>
        <source>Wire of the first</source>
        <translation>Draht der ersten</translation>
    </message>
    <message>
        <source>All marked strings take gauge and material of the first</source>
        <translation>Alle markierten Saiten bekommen Stärke und Material der ersten</translation>
    </message>
    <message>
        <source>At the instrument&apos;s own standard in equal temperament. A degree of pin gives less where the wire behind the bridge is long. &quot;!&quot;: the weakest wire of its kind would break here.</source>
        <translation>Auf dem eigenen Stimmton des Instruments, gleichstufig. Ein Grad am Wirbel bewirkt weniger, wo der Draht hinter dem Steg lang ist. „!“: hier würde der schwächste Draht seiner Art reißen.</translation>
    </message>
</context>
<context>
    <name>quillbench::TemperamentModel</name>
    <message>
        <source>After %1</source>
        <translation>Nach %1</translation>
    </message>
    <message>
        <source>made from %1</source>
        <translation>ausgehend von %1</translation>
    </message>
</context>
<context>
    <name>quillbench::TemperamentPage</name>
    <message>
        <source> Hz</source>
        <translation> Hz</translation>
    </message>
    <message>
        <source>Pitch of a′ at which beats are told</source>
        <translation>Tonhöhe von a′, für die Schwebungen angegeben werden</translation>
    </message>
    <message>
        <source>&amp;a′</source>
        <translation>&amp;a′</translation>
    </message>
    <message>
        <source>Compare with</source>
        <translation>Vergleichen mit</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>nichts</translation>
    </message>
    <message>
        <source>&amp;Compare with</source>
        <translation>Verglei&amp;ch</translation>
    </message>
    <message>
        <source>&amp;Tune with this</source>
        <translation>&amp;Damit stimmen</translation>
    </message>
    <message>
        <source>Goes to Tune with this temperament at this pitch</source>
        <translation>Geht mit dieser Temperatur und Tonhöhe zum Stimmen</translation>
    </message>
    <message>
        <source>P Pythagorean comma, S syntonic comma; below each fraction its cents.</source>
        <translation>P pythagoreisches Komma, S syntonisches Komma; unter jedem Bruch seine Cent.</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>A fraction of the Pythagorean (P) or syntonic (S) comma such as -1/6P or -1/4S, cents such as -3.9c, a ratio such as 392/393, or 0 for pure</source>
        <translation>Ein Bruchteil des pythagoreischen (P) oder syntonischen (S) Kommas wie -1/6P oder -1/4S, Cent wie -3,9c, ein Verhältnis wie 392/393, oder 0 für rein</translation>
    </message>
    <message>
        <source>P&amp;ure</source>
        <translation>&amp;Rein</translation>
    </message>
    <message>
        <source>Ta&amp;ke what is left</source>
        <translation>Rest ü&amp;bernehmen</translation>
    </message>
    <message>
        <source>This fifth takes what the others leave, so that the circle closes</source>
        <translation>Diese Quinte übernimmt, was die anderen übrig lassen, sodass der Zirkel schließt</translation>
    </message>
    <message>
        <source>Un&amp;do</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>&amp;Wieder</translation>
    </message>
    <message>
        <source>O&amp;pen…</source>
        <translation>&amp;Öffnen…</translation>
    </message>
    <message>
        <source>Sav&amp;e as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>Card A&amp;5…</source>
        <translation>Karte A&amp;5…</translation>
    </message>
    <message>
        <source>Th&amp;irds</source>
        <translation>T&amp;erzen</translation>
    </message>
    <message>
        <source>&amp;Minor thirds</source>
        <translation>&amp;Kleine Terzen</translation>
    </message>
    <message>
        <source>Notes in cents and hertz</source>
        <translation>Töne in Cent und Hertz</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Töne</translation>
    </message>
    <message>
        <source>Beats a second, plus is wide</source>
        <translation>Schwebungen je Sekunde, plus ist weit</translation>
    </message>
    <message>
        <source>&amp;Beats</source>
        <translation>Schwebun&amp;gen</translation>
    </message>
    <message>
        <source>Beats a second over each key: + wide, − narrow. Pale: too fast to count.</source>
        <translation>Schwebungen je Sekunde über jeder Taste: + weit, − eng. Blass: zu schnell zum Zählen.</translation>
    </message>
    <message>
        <source>Bearin&amp;gs</source>
        <translation>Stimm&amp;plan</translation>
    </message>
    <message>
        <source>What is this?</source>
        <translation>Welche?</translation>
    </message>
    <message>
        <source>&amp;Fifth %1–%2</source>
        <translation>&amp;Quinte %1–%2</translation>
    </message>
    <message>
        <source>Open a temperament</source>
        <translation>Eine Temperatur öffnen</translation>
    </message>
    <message>
        <source>Save the temperament</source>
        <translation>Die Temperatur speichern</translation>
    </message>
    <message>
        <source>Saved: %1</source>
        <translation>Gespeichert: %1</translation>
    </message>
    <message>
        <source>A card to stand on the instrument: on paper or as PDF</source>
        <translation>Eine Karte zum Aufstellen auf dem Instrument: auf Papier oder als PDF</translation>
    </message>
    <message>
        <source>Temperament</source>
        <translation>Temperatur</translation>
    </message>
</context>
<context>
    <name>quillbench::ThirdsView</name>
    <message>
        <source>pure</source>
        <translation>rein</translation>
    </message>
    <message>
        <source>Thirds</source>
        <translation>Terzen</translation>
    </message>
    <message>
        <source>Blue: the pure third. Amber: each third of the temperament, above where it is wide and below where it is narrow, with its beats a second. Dash-dotted: the Pythagorean third. In brackets: keys not spelled as a third.</source>
        <translation>Blau: die reine Terz. Bernstein: jede Terz der Temperatur, darüber, wo sie weit, und darunter, wo sie eng ist, mit ihren Schwebungen je Sekunde. Strichpunktiert: die pythagoreische Terz. In Klammern: Tasten, die nicht als Terz geschrieben sind.</translation>
    </message>
    <message>
        <source>At each third: beats a second; below: cents</source>
        <translation>An jeder Terz: Schwebungen je Sekunde; darunter: Cent</translation>
    </message>
</context>
<context>
    <name>quillbench::TunePage</name>
    <message>
        <source>by ear: covered until you accept it</source>
        <translation>nach Gehör: verdeckt, bis angenommen</translation>
    </message>
    <message>
        <source>Listen: two strings together.</source>
        <translation>Hinhören: zwei Saiten zusammen.</translation>
    </message>
    <message>
        <source>Tune</source>
        <translation>Stimmen</translation>
    </message>
    <message>
        <source>The rest is tuned at %1. %2 begins again at %3.</source>
        <translation>Der Rest wird auf %1 gestimmt. %2 beginnt von vorn bei %3.</translation>
    </message>
</context>
<context>
    <name>quillbench::TuningModel</name>
    <message>
        <source>goes on at %1 after a first look at %2</source>
        <translation>geht nach einem ersten Blick bei %2 auf %1 weiter</translation>
    </message>
</context>
<context>
    <name>quillbench::WiresView</name>
    <message>
        <source>The two wires</source>
        <translation>Die zwei Drähte</translation>
    </message>
    <message>
        <source>sharp</source>
        <translation>zu hoch</translation>
    </message>
    <message>
        <source>flat</source>
        <translation>zu tief</translation>
    </message>
</context>
<context>
    <name>quillbench::WorksheetTable</name>
    <message>
        <source>Jacks to do</source>
        <translation>Zu richtende Springer</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Erledigt</translation>
    </message>
    <message>
        <source>To do</source>
        <translation>Zu tun</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>Nothing to do yet. What stands out among the keys is listed here, to be ticked off and printed.</source>
        <translation>Noch nichts zu tun. Was unter den Tasten auffällt, steht dann hier, zum Abhaken und Drucken.</translation>
    </message>
</context>
</TS>
