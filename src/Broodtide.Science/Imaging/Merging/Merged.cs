using Broodtide.Science.Imaging.Registration;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>One frame of a stack and what became of it.</summary>
/// <param name="Map">Where a pixel of the merged picture lies in the frame.</param>
/// <param name="Correlation">How well its texture agrees with that of the reference, -1 to 1.</param>
/// <param name="IsUsed">Whether it was laid over the others; if not it is left out.</param>
/// <param name="Share">The share of the merged picture that comes from it, 0 to 1.</param>
/// <param name="Sharpness">Mean squared modified Laplacian where all frames see, in squared levels of 0 to 255.</param>
public sealed record MergedFrame(
    AffineMap Map,
    double Correlation,
    bool IsUsed,
    double Share,
    double Sharpness
);

/// <summary>A picture that is sharp where any of its frames is.</summary>
/// <param name="Shape">The shape of the frames.</param>
/// <param name="Colours">Four bytes a pixel: red, green, blue and 255.</param>
/// <param name="IsMerged">False where no merging was sharper than the sharpest frame: then it is that frame.</param>
/// <param name="Reference">The frame, from 0, that the others were laid over.</param>
/// <param name="Sharpest">The frame, from 0, that is the sharpest on the whole.</param>
/// <param name="Sharpness">Of the merged picture, as that of the frames.</param>
/// <param name="Frames">Every frame, in the order given.</param>
/// <param name="ShareOfHalo">Share of blocks of 64 pixels whose variance is well above that of any frame there.</param>
/// <param name="ShareMoved">Share of the picture where the frames disagree though they lie over each other.</param>
/// <param name="Remarks">
/// Codes: merge-frame-left-out (frame, correlation), merge-returns-frame (frame), merge-may-have-halos (sharePercent),
/// merge-something-moved (sharePercent).
/// </param>
public sealed record Merged(
    GridShape Shape,
    ReadOnlyMemory<byte> Colours,
    bool IsMerged,
    int Reference,
    int Sharpest,
    double Sharpness,
    IReadOnlyList<MergedFrame> Frames,
    double ShareOfHalo,
    double ShareMoved,
    IReadOnlyList<Remark> Remarks
);

/// <summary>What a merge is at.</summary>
public enum MergeWork
{
    /// <summary>Frames are laid over each other and measured.</summary>
    Laying,

    /// <summary>For every place the frames are chosen.</summary>
    Choosing,

    /// <summary>The picture is put together.</summary>
    Merging,

    /// <summary>The picture is compared with its frames.</summary>
    Checking,
}

/// <summary>A piece of a merge that is done.</summary>
/// <param name="Work">What it was at.</param>
/// <param name="Frame">The frame in hand, from 0; -1 where it is about all.</param>
/// <param name="Done">How much of all is done, 0 to 1.</param>
/// <param name="Answer">The last piece alone brings the answer.</param>
public readonly record struct MergeStep(
    MergeWork Work,
    int Frame,
    double Done,
    Parsed<Merged>? Answer = null
);
