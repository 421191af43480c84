using Broodtide.Science.Imaging.Lengths;

namespace Broodtide.Science.Imaging.Chambers;

/// <summary>One ruled square.</summary>
/// <param name="Number">From 1, in the order of reading.</param>
/// <param name="Sides">Its four sides in pixels of the picture: upper, right, lower, left.</param>
/// <param name="Cells">How many cells count as lying in it by the rule of two edges.</param>
public sealed record ChamberSquare(int Number, IReadOnlyList<PictureLine> Sides, int Cells);
