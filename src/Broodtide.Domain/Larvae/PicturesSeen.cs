using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Larvae;

/// <summary>Where the program counted.</summary>
[JsonConverter(typeof(Words<CountedAt>))]
public enum CountedAt
{
    /// <summary>On the phone, the pictures made smaller.</summary>
    Phone,

    /// <summary>On the server, the pictures as they were taken.</summary>
    Server,

    /// <summary>On the command line, the pictures as they were taken.</summary>
    CommandLine,
}

/// <summary>Who marked a larva.</summary>
[JsonConverter(typeof(Words<MarkedBy>))]
public enum MarkedBy
{
    /// <summary>The program alone.</summary>
    Program,

    /// <summary>A person alone.</summary>
    Person,

    /// <summary>The program, and a person who did not see the program's mark.</summary>
    Both,
}

/// <summary>Whether a person looked at the marks.</summary>
[JsonConverter(typeof(Words<PersonLooked>))]
public enum PersonLooked
{
    /// <summary>Nobody did.</summary>
    No,

    /// <summary>A person corrected what the program had marked.</summary>
    WithMarks,

    /// <summary>A person marked before the program's marks were shown: two looks that do not know of each other.</summary>
    Before,
}

/// <summary>One picture that was counted in.</summary>
/// <param name="Sha256">64 lower-case hex figures of SHA-256 over the file, what is not the picture left out.</param>
/// <param name="Across">Pixels across, turned upright.</param>
/// <param name="Down">Pixels down, turned upright.</param>
/// <param name="LeftOut">Whether the program left its marks out of the number.</param>
public sealed record PictureSeen(string Sha256, int Across, int Down, bool? LeftOut = null);

/// <summary>What the program counted, before any person looked.</summary>
/// <param name="At">Where.</param>
/// <param name="LongestSide">Pixels along the longer side of what it was given.</param>
/// <param name="Marked">How many it marked; of a burst the middle one of its frames.</param>
/// <param name="Low">The 5 % point of the number of larvae.</param>
/// <param name="Middle">Its median.</param>
/// <param name="High">Its 95 % point.</param>
public sealed record ProgramCount(
    CountedAt At,
    int LongestSide,
    int Marked,
    double Low,
    double Middle,
    double High
);

/// <summary>A mark on the picture that is shown.</summary>
/// <param name="X">Pixels of the upright picture from the middle of its leftmost one.</param>
/// <param name="Y">Pixels from the middle of its topmost one.</param>
/// <param name="By">Who marked it; the program if left out.</param>
/// <param name="Removed">Whether a person took it away, as no larva.</param>
public sealed record PlacedMark(double X, double Y, MarkedBy? By = null, bool? Removed = null);

/// <summary>The pictures of a count, what the program marked in them, and what a person changed.</summary>
/// <param name="Pictures">The photo, or the frames of a burst in the order taken.</param>
/// <param name="Shown">Which of them the marks are on, from 0.</param>
/// <param name="Counts">What the program counted, and where; the first one is that of the marks.</param>
/// <param name="Marks">Every mark that was made, those taken away too.</param>
/// <param name="Person">Whether a person looked.</param>
/// <param name="Setup">Container and lamp, as the keeper calls them together.</param>
/// <param name="Known">How many there truly were, counted one by one as at a crossing.</param>
public sealed record PicturesSeen(
    IReadOnlyList<PictureSeen> Pictures,
    int Shown,
    IReadOnlyList<ProgramCount> Counts,
    IReadOnlyList<PlacedMark> Marks,
    PersonLooked Person = PersonLooked.No,
    string? Setup = null,
    int? Known = null
)
{
    private const double MostLarvae = 1e9;

    /// <summary>How many different larvae were marked and not taken away.</summary>
    public int Different() => Marks.Count(mark => mark.Removed is not true);

    /// <summary>How many of those the program marked.</summary>
    public int OfProgram() => Marks.Count(mark => mark.Removed is not true && mark.By is not MarkedBy.Person);

    /// <summary>How many of those the person marked, or left where the program had marked; none if nobody looked.</summary>
    public int? OfPerson() =>
        Person switch
        {
            PersonLooked.WithMarks => Different(),
            PersonLooked.Before => Marks.Count(mark =>
                mark.Removed is not true && mark.By is MarkedBy.Person or MarkedBy.Both
            ),
            _ => null,
        };

    /// <summary>How many of those both marked; none if nobody looked.</summary>
    public int? OfBoth() =>
        Person switch
        {
            PersonLooked.WithMarks => OfProgram(),
            PersonLooked.Before => Marks.Count(mark => mark.Removed is not true && mark.By is MarkedBy.Both),
            _ => null,
        };

    // The marks lie within this many pixels of the picture's edges.
    internal Remark? Amiss()
    {
        if (Pictures.Count == 0 || Counts.Count == 0)
        {
            return new Remark("pictures-none", new Argument("field", "pictures"));
        }

        if (Pictures.FirstOrDefault(picture => !Keeping.PhotoAdded.IsHash(picture.Sha256)) is { } unnamed)
        {
            return new Remark(
                "hash-unreadable",
                new("field", "pictures.sha256"),
                new("typed", unnamed.Sha256)
            );
        }

        return Pictures
            .SelectMany(picture => new[] { Whole("across", picture.Across), Whole("down", picture.Down) })
            .Append(
                Shown < Pictures.Count ? Whole("shown", Shown) : Outside("shown", Shown, Pictures.Count - 1)
            )
            .Append(Whole("known", Known ?? 0))
            .Concat(Counts.SelectMany(Amiss))
            .Concat(Marks.SelectMany(mark => new[] { Within("x", mark.X), Within("y", mark.Y) }))
            .FirstOrDefault(reason => reason is not null);
    }

    private static IEnumerable<Remark?> Amiss(ProgramCount count) =>
        [
            Whole("longestSide", count.LongestSide),
            Whole("marked", count.Marked),
            count.Low >= 0
            && count.Low <= count.Middle
            && count.Middle <= count.High
            && count.High <= MostLarvae
                ? null
                : Outside("middle", count.Middle, MostLarvae),
        ];

    private static Remark? Whole(string name, long count) =>
        count < 0
            ? new Remark("count-negative", new("field", $"pictures.{name}"), new("count", count))
            : null;

    private static Remark? Within(string name, double pixels) =>
        pixels is >= -1 and <= 100_000 ? null : Outside(name, pixels, 100_000);

    private static Remark Outside(string name, double value, double highest) =>
        new(
            "number-impossible",
            new("field", $"pictures.{name}"),
            new("typed", value),
            new("lowest", 0.0),
            new("highest", highest)
        );
}
