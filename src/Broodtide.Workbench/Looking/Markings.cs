using Broodtide.Domain.Larvae;
using Broodtide.Science.Counting;
using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Workbench.Looking;

/// <summary>
/// The marks of the program and of a person on one picture. What was marked is never forgotten: a mark of the program
/// that a person takes away stays as taken away. Two lookers on one number of larvae: what both miss, nobody counts.
/// </summary>
/// <param name="Marks">The marks, in pixels of the picture.</param>
/// <param name="Person">Whether a person looked, and how.</param>
public sealed record Markings(IReadOnlyList<PlacedMark> Marks, PersonLooked Person)
{
    /// <summary>What the program marked; nobody looked yet.</summary>
    public static Markings OfProgram(IReadOnlyList<SpotMark> marks) =>
        new([.. marks.Select(mark => Placed(mark))], PersonLooked.No);

    /// <summary>
    /// The marks of a person who did not see the program's, and the program's: pairs one to one, the nearest first,
    /// within a reach. A mark of both lies where the program put it.
    /// </summary>
    /// <param name="person">Where the person marked, in pixels of the picture.</param>
    /// <param name="program">What the program marked.</param>
    /// <param name="reach">How far two marks of one larva may lie apart, in pixels, 0 or more.</param>
    public static Markings OfBoth(
        IReadOnlyList<(double X, double Y)> person,
        IReadOnlyList<SpotMark> program,
        double reach
    )
    {
        var pairs =
            from p in Enumerable.Range(0, person.Count)
            from m in Enumerable.Range(0, program.Count)
            let apart = Math.Sqrt(
                Math.Pow(person[p].X - program[m].X, 2) + Math.Pow(person[p].Y - program[m].Y, 2)
            )
            where apart <= reach
            orderby apart, p, m
            select (p, m);
        var (ofPerson, ofProgram) = (new HashSet<int>(), new HashSet<int>());
        foreach (var (p, m) in pairs)
        {
            if (!ofPerson.Contains(p) && !ofProgram.Contains(m))
            {
                ofPerson.Add(p);
                ofProgram.Add(m);
            }
        }

        return new(
            [
                .. program.Select((mark, m) => Placed(mark, ofProgram.Contains(m) ? MarkedBy.Both : null)),
                .. person
                    .Where((_, p) => !ofPerson.Contains(p))
                    .Select(mark => new PlacedMark(Round(mark.X), Round(mark.Y), MarkedBy.Person)),
            ],
            PersonLooked.Before
        );
    }

    /// <summary>How many different larvae are marked.</summary>
    public int Different => Marks.Count(mark => mark.Removed is not true);

    /// <summary>How many a person took away.</summary>
    public int Removed => Marks.Count(mark => mark.Removed is true);

    /// <summary>How many a person added.</summary>
    public int Added => Marks.Count(mark => mark.By is MarkedBy.Person);

    /// <summary>A person looked at every mark, whether any was changed or not.</summary>
    public Markings Checked() =>
        Person == PersonLooked.No ? this with { Person = PersonLooked.WithMarks } : this;

    /// <summary>
    /// A mark touched: one of the program is taken away, or comes back; one of a person alone is gone.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such mark.</exception>
    public Markings Touched(int mark)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(mark);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(mark, Marks.Count);
        return Checked() with
        {
            Marks =
                Marks[mark].By is MarkedBy.Person
                    ? [.. Marks.Where((_, at) => at != mark)]
                    :
                    [
                        .. Marks.Select(
                            (it, at) =>
                                at != mark ? it : it with { Removed = it.Removed is true ? null : true }
                        ),
                    ],
        };
    }

    /// <summary>A larva that the program did not mark.</summary>
    public Markings With(double x, double y) =>
        Checked() with
        {
            Marks = [.. Marks, new PlacedMark(Round(x), Round(y), MarkedBy.Person)],
        };

    /// <summary>
    /// The person first, the program second; none while nobody looked. Of a person who saw the program's marks the two
    /// do not look apart: then the number of both is no more than the number of different marks.
    /// </summary>
    public static TwoLookers? Lookers(PicturesSeen seen) =>
        seen.OfPerson() is { } person && seen.OfBoth() is { } both
            ? new TwoLookers(person, seen.OfProgram(), both)
            : null;

    private static PlacedMark Placed(SpotMark mark, MarkedBy? by = null) =>
        new(Round(mark.X), Round(mark.Y), by);

    // A tenth of a pixel is less than any mark is known to.
    private static double Round(double pixels) => Math.Round(pixels, 1);
}
