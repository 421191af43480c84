using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Settling;

/// <summary>A survival file that was written.</summary>
internal sealed record SurvivalAnswer(string File, string Card, int Alive);

/// <summary>Survival that comes back: written by whoever got juveniles, read by whoever gave them.</summary>
internal static class SurvivalVerbs
{
    public static VerbCommand Answer()
    {
        var card = Slot.Word("CARD", "Code on the care card that came with them.");
        var alive = Slot.Word("ALIVE", "How many live.");
        var on = Slot.Option("--on", "The day they were counted, as 2026-08-31; today if left out.", "DATE");
        var received = Slot.Option("--received", "How many had come.", "COUNT");
        var note = Slot.Option("--note", "What else to tell.", "TEXT");
        var file = Slot.Option("--out", "Place of the file.", "FILE");
        return new(
            "answer",
            "For whoever got juveniles: write a small file that tells how many live, to send to whoever gave them.",
            ["return answer 7Q4M-2KX9-ZV 8 --received 10 --on 2026-03-01 --out answer.json"],
            [card, alive, on, received, note, file],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var path = said.Text(file);
                var told = SurvivalFile.Told(
                    said.Text(card),
                    said.Text(on)
                        ?? NodaTime.Text.LocalDatePattern.Iso.Format(sitting.Now.InZone(sitting.Zone).Date),
                    said.Count(alive),
                    said.Count(received),
                    said.Text(note)
                );
                if (path is null)
                {
                    said.Add(new Remark("option-needed", new Argument("field", file.Name)));
                }

                if (said.Wrong.Count > 0 || !told.Succeeded)
                {
                    return sitting.NotUnderstood([
                        .. said.Wrong,
                        .. told.Succeeded ? [] : new[] { told.Reason },
                    ]);
                }

                if (File.Exists(path))
                {
                    return sitting.Refuse([new Remark("file-is-there", new Argument("file", path))]);
                }

                await File.WriteAllBytesAsync(path!, SurvivalFile.Write(told.Value), sitting.Cancellation);
                return sitting.Answer(
                    new SurvivalAnswer(path!, told.Value.Card.Text, told.Value.Alive),
                    CliJson.Default.SurvivalAnswer,
                    page =>
                        page.Line(
                            $"{path} tells that {told.Value.Alive} live. Send it to whoever gave them to you."
                        )
                );
            }
        );
    }

    public static VerbCommand Hear()
    {
        var file = Slot.Word("FILE", "The survival file that came back.");
        return new(
            "hear",
            "Read a survival file that came back: it is held against the givings of the journal and written as an entry.",
            ["return hear told.json"],
            [file],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var path = file.Text(sitting.Parse)!;
                if (!File.Exists(path))
                {
                    return sitting.NotUnderstood(
                        [new Remark("file-not-there", new Argument("file", path))],
                        saying
                    );
                }

                if (new FileInfo(path).Length > SurvivalFile.MostBytes)
                {
                    return sitting.NotUnderstood(
                        [new Remark("survival-too-long", new Argument("most", SurvivalFile.MostBytes))],
                        saying
                    );
                }

                var told = SurvivalFile.Read(await File.ReadAllBytesAsync(path, sitting.Cancellation));
                if (!told.Succeeded)
                {
                    return sitting.NotUnderstood([told.Reason], saying);
                }

                var hearing = SurvivalHearing.Hear(outlook.House, told.Value, sitting.Now, sitting.Zone);
                if (!hearing.Succeeded)
                {
                    return sitting.Refuse([hearing.Reason], saying);
                }

                if (hearing.Value.Doubt is { } doubt)
                {
                    sitting.Surroundings.Error.WriteLine(saying.Of(doubt));
                }

                return await Entries.AppendAsync(
                    sitting,
                    [sitting.Keeper.Write(hearing.Value.Fact, Happened.At(hearing.Value.At))]
                );
            }
        );
    }
}
