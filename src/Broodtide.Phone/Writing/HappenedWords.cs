using Broodtide.Domain.Journal;
using Broodtide.Phone.Language;

namespace Broodtide.Phone.Writing;

/// <summary>When something happened, in words.</summary>
internal static class HappenedWords
{
    /// <summary>Thu 20 May, 18:40; or: some time between … and ….</summary>
    public static string Said(this Formats formats, Words words, Happened happened) =>
        happened.Earliest == happened.Latest
            ? formats.Moment(happened.Earliest)
            : words["when.between.said", formats.Moment(happened.Earliest), formats.Moment(happened.Latest)];
}
