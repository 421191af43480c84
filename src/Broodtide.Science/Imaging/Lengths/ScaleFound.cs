using Broodtide.Units;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>A straight line on a picture, in pixels from the middle of its first pixel.</summary>
public readonly record struct PictureLine(double FromX, double FromY, double ToX, double ToY);

/// <summary>How large a pixel is.</summary>
/// <param name="MicrometresPerPixel">Micrometres a pixel: 5, 50 and 95 %.</param>
/// <param name="StepPixels">Pixels that were taken for the known distance.</param>
/// <param name="Ticks">From how many ticks; 2 for two taps.</param>
/// <param name="Marks">What was taken for ticks, for showing: a keeper has to see that every tick is marked once.</param>
/// <param name="Remarks">What else there is to know, as codes.</param>
public sealed record ScaleFound(
    Interval MicrometresPerPixel,
    double StepPixels,
    int Ticks,
    IReadOnlyList<PictureLine> Marks,
    IReadOnlyList<Remark> Remarks
);
