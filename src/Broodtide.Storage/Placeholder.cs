namespace Broodtide.Storage;
