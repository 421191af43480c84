namespace Broodtide.Science.Imaging.Chambers;

/// <summary>One cell, in pixels of the picture from the middle of its first pixel.</summary>
/// <param name="X">Middle across.</param>
/// <param name="Y">Middle down.</param>
/// <param name="Radius">Radius of a disc as large as it looks.</param>
public readonly record struct ChamberCell(double X, double Y, double Radius);
