using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Workbench.Looking;

/// <summary>What a keeper says beside the pictures of a count.</summary>
/// <param name="Vessel">Where the larvae live.</param>
/// <param name="Setup">Container and lamp, as the keeper calls them together.</param>
/// <param name="Known">How many there truly were, counted one by one.</param>
/// <param name="Cohort">The cohort, if only one was counted.</param>
/// <param name="InDark">Whether the room was dark.</param>
/// <param name="Again">Whether the same water was counted a second time.</param>
public sealed record SaidOfPictures(
    VesselId Vessel,
    string? Setup = null,
    int? Known = null,
    CohortId? Cohort = null,
    bool? InDark = null,
    bool Again = false
);

/// <summary>A count in pictures as an entry of the journal.</summary>
public static class PictureCounts
{
    /// <summary>What the program counted, as it is kept.</summary>
    /// <param name="count">The count.</param>
    /// <param name="at">Where it was counted.</param>
    /// <param name="longestSide">Pixels along the longer side of what was looked at.</param>
    public static ProgramCount OfProgram(PicturesCounted count, CountedAt at, int longestSide) =>
        new(
            at,
            longestSide,
            count.Marks.Count,
            Figures(count.Number.Low),
            Figures(count.Number.Middle),
            Figures(count.Number.High)
        );

    /// <summary>The entry; its sample holds what is marked and was not taken away.</summary>
    /// <param name="said">What the keeper says.</param>
    /// <param name="pictures">The files, in the order taken; whether they were left out is said by the count.</param>
    /// <param name="count">The count whose marks they are.</param>
    /// <param name="marks">The marks, after whatever a person changed.</param>
    /// <param name="counts">What was counted where, that of the marks first.</param>
    public static CountMade Entry(
        SaidOfPictures said,
        IReadOnlyList<PictureSeen> pictures,
        PicturesCounted count,
        Markings marks,
        IReadOnlyList<ProgramCount> counts
    ) =>
        new(
            said.Vessel,
            CountMethod.Photo,
            [new Aliquot(marks.Different)],
            said.Cohort,
            said.InDark,
            said.Again,
            new PicturesSeen(
                [
                    .. pictures.Zip(
                        count.Frames,
                        (picture, frame) => picture with { LeftOut = frame.IsUsed ? null : true }
                    ),
                ],
                count.Shown,
                counts,
                marks.Marks,
                marks.Person,
                string.IsNullOrWhiteSpace(said.Setup) ? null : said.Setup.Trim(),
                said.Known
            )
        );

    /// <summary>
    /// What the marks of two lookers say of the number: no more than a lower bound, since what both cannot see is
    /// missing. None while nobody looked.
    /// </summary>
    public static Interval? AtLeast(PicturesSeen seen) => Markings.Lookers(seen)?.ToInterval();

    // A number of larvae is not known to a thousandth.
    private static double Figures(double larvae) => Math.Round(larvae, 1);
}
