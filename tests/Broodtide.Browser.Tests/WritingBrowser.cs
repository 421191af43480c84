namespace Broodtide.Browser.Tests;

/// <summary>Tests that mostly write, each on a house of its own: a browser beside the one that only looks.</summary>
[CollectionDefinition(Name)]
public sealed class WritingBrowser : ICollectionFixture<Browsing>
{
    public const string Name = "a browser to write with";
}
