using Broodtide.Durability;

// broodtide-durability work NAME FOLDER OUTSIDE SEED [plant]       works until it is ended
// broodtide-durability few NAME FOLDER OUTSIDE SEED                a few rounds
// broodtide-durability prove ...                                   see Ask
return args switch
{
    ["work", var work, var folder, var outside, var seed] => await Child.ForeverAsync(
        work,
        folder,
        outside,
        int.Parse(seed),
        isPlanted: false
    ),
    ["work", var work, var folder, var outside, var seed, "plant"] => await Child.ForeverAsync(
        work,
        folder,
        outside,
        int.Parse(seed),
        isPlanted: true
    ),
    ["few", var work, var folder, var outside, var seed] => await Child.FewAsync(
        work,
        folder,
        outside,
        int.Parse(seed)
    ),
    ["prove", .. var rest] => await Asked.RunAsync(rest),
    _ => Asked.Usage(),
};
