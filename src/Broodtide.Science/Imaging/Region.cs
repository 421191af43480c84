namespace Broodtide.Science.Imaging;

/// <summary>One connected thing in a picture.</summary>
/// <param name="Area">Its pixels.</param>
/// <param name="CentreX">Mean of its pixels across, in pixels from the middle of the leftmost one.</param>
/// <param name="CentreY">Mean of its pixels down, in pixels from the middle of the topmost one.</param>
/// <param name="LongSigma">Standard deviation of its pixels along its longer axis, in pixels.</param>
/// <param name="ShortSigma">Standard deviation of its pixels along its shorter axis, in pixels.</param>
/// <param name="TouchesEdge">Whether a pixel of it lies at the edge of the picture.</param>
public sealed record Region(
    int Area,
    double CentreX,
    double CentreY,
    double LongSigma,
    double ShortSigma,
    bool TouchesEdge
);
