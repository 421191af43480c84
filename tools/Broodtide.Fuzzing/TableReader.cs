using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.OldNotes;
using NodaTime;

namespace Broodtide.Fuzzing;

/// <summary>Tables of old notes and of loggers, and the mapping that was kept for one.</summary>
internal static class TableReader
{
    private static readonly VesselId Jar = new(new Guid("019ab5d0-5c00-7000-8000-0000000000aa"));
    private static readonly Account Empty = Account.Of([]);

    public static void Read(byte[] bytes)
    {
        var (choice, rest) = Readers.Choose(bytes, 3);
        switch (choice)
        {
            case 0:
                Wait(NotesSurvey.OfAsync(new MemoryStream(rest)));
                break;
            case 1:
                NotesMapText.Read(rest, ["date", "value"]);
                break;
            default:
                if (rest.Length >= 2)
                {
                    Wait(
                        NotesReading.OfAsync(
                            new MemoryStream(rest[2..]),
                            Map(rest[0], rest[1]),
                            Empty,
                            Instant.FromUtc(2026, 1, 1, 12, 0),
                            _ => Jar
                        )
                    );
                }

                break;
        }
    }

    private static NotesMap Map(byte one, byte two) =>
        new()
        {
            Delimiter = ",;\t|"[one & 3],
            HeaderRows = (one >> 2) & 1,
            IsLatin1 = (one & 8) != 0,
            DateColumn = 0,
            TimeColumn = (one & 16) != 0 ? 1 : null,
            Order = (DateOrder)((one >> 5) % 3),
            TwoDigitYearsFrom = (two & 1) != 0 ? 2000 : null,
            Zone = "Europe/Zurich",
            Decimal = (DecimalMark)((two >> 1) & 1),
            Vessels = new Dictionary<string, string> { [""] = "Jar" },
            Columns =
            [
                new(1, ColumnMeaning.Reading, "Cel"),
                new(2, ColumnMeaning.Count, null, CountMethod.Beam),
                new(3, ColumnMeaning.Note),
            ],
            OneInMinutes = (two & 4) != 0 ? 10 : null,
            Doubles = (DoubleRows)((two >> 3) % 3),
            LeaveOutUnreadable = (two & 32) != 0,
        };

    private static void Wait(Task task) => task.GetAwaiter().GetResult();
}
